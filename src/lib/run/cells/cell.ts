import { read, readSalinityPptPerDay, readVolumeL, unreadable, type Read } from '../../units/index.ts';
import type { Band, Change, Lasts, Start, TestRule } from '../run.ts';
import { printChange, readChange } from './change.ts';
import type { CellContext, PrintContext } from './context.ts';
import { printLasts, readLasts } from './lasts.ts';
import { printAim, printLevel, readAim, readLevel } from './level.ts';
import { figure } from './figure.ts';
import { printRepeats, readRepeats, type Repeats } from './repeat.ts';
import { printStart, readStart } from './start.ts';
import { printTests, readTests } from './test.ts';

/** What each written column of the sheet holds once it is read. */
export interface CellValues {
	starts: Start;
	lasts: Lasts;
	/** mg/L, uL/L, ppt or mg per g of food, by the row's kind and medicine */
	level: Band;
	aim: number;
	repeat: Repeats;
	change: Change | null;
	test: TestRule[];
	bath: number;
	rise: number;
}

export type CellColumn = keyof CellValues;

interface Grammar<T> {
	read(text: string, context: CellContext): Read<T>;
	print(value: T, context: PrintContext): string;
}

const grammars: { [C in CellColumn]: Grammar<CellValues[C]> } = {
	starts: { read: readStart, print: printStart },
	lasts: { read: readLasts, print: printLasts },
	level: { read: readLevel, print: printLevel },
	aim: { read: readAim, print: printAim },
	repeat: { read: readRepeats, print: printRepeats },
	change: { read: readChange, print: printChange },
	test: { read: readTests, print: printTests },
	bath: { read: readBath, print: (litres) => `${figure(litres)} L` },
	rise: { read: readRise, print: (perDay) => `${figure(perDay)} ppt/d` }
};

export const cellColumns = Object.keys(grammars) as CellColumn[];

/** What a cell says, or what was expected of it. Forgiving about case, spaces, dashes and units that fit. */
export function readCell<C extends CellColumn>(
	column: C,
	text: string,
	context: CellContext
): Read<CellValues[C]> {
	return grammars[column].read(text, context);
}

/** A cell's value in its one canonical form; reading it back gives the same value. */
export function printCell<C extends CellColumn>(
	column: C,
	value: CellValues[C],
	context: PrintContext
): string {
	return grammars[column].print(value, context);
}

/** The same cell in its canonical form: what the sheet shows, or what a plan file keeps (ids for row numbers, ISO dates). */
export function canonicalCell(
	column: CellColumn,
	text: string,
	context: CellContext,
	form: PrintContext['form']
): Read<string> {
	const value = readCell(column, text, context);
	return value.ok ? read(printCell(column, value.value, { ...context, form })) : value;
}

function readBath(text: string): Read<number> {
	const litres = readVolumeL(text);
	return litres.ok && litres.value <= 0 ? unreadable('out-of-range', text, 'a volume over 0 L') : litres;
}

function readRise(text: string): Read<number> {
	const perDay = readSalinityPptPerDay(text);
	if (!perDay.ok || perDay.value > 0) return perDay;
	return unreadable('out-of-range', text, 'a rise over nothing, such as 2 ppt/d');
}
