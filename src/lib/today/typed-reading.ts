import {
	read,
	readConcentration,
	readNumber,
	readTemperatureC,
	unreadable,
	type Read,
	type UnitSystem
} from '../units/index.ts';
import type { Ask } from './ask.ts';
import { unitShown } from './unit-shown.ts';

/** A reading as it was typed: its number in the unit of the question, and the text the log keeps. */
export interface TypedReading {
	value: number;
	text: string;
}

/** Reads what was typed: a bare number is meant in the unit shown, another unit of the same kind is read as such. */
export function readTyped(ask: Ask, text: string, system: UnitSystem): Read<TypedReading> {
	const trimmed = text.trim();
	const number = readNumber(trimmed);
	const unit = unitShown(ask, system);
	const whole = number.ok && unit ? `${number.value} ${unit}` : trimmed;
	const value = number.ok && number.value < 0 && ask.what !== 'T' ? tooLow(text) : valueOf(ask, whole);
	return value.ok ? read({ value: value.value, text: whole }) : value;
}

const tooLow = (text: string): Read<number> => unreadable('out-of-range', text, 'a number from 0 up');

function valueOf(ask: Ask, text: string): Read<number> {
	if (ask.what === 'T') return readTemperatureC(text);
	if (ask.what === 'pH') {
		const value = readNumber(text);
		return value.ok && value.value <= 14 ? value : unreadable('out-of-range', text, 'a pH such as 8.1');
	}
	if (ask.what === 'S') {
		const value = readNumber(text.replace(/\s*ppt$/, ''));
		return value.ok && value.value <= 60 ? value : unreadable('unit', text, 'a salinity such as 34 ppt');
	}
	return readConcentration(text, ask.unit === 'uL/L' ? 'whole' : 'mass');
}
