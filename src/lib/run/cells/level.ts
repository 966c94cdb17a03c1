import { read, readConcentrationBand, readStrength, unreadable, type Read } from '../../units/index.ts';
import { readSalinityCell } from '../../water/index.ts';
import type { Band } from '../run.ts';
import { tidy, type CellContext, type PrintContext } from './context.ts';
import { figures } from './figure.ts';

/** `0.18 mg/L`, `0.15-0.20 mg/L`, `2.5 ppm`; `16 ppt` for low salinity, `10 mg/g` of food for feed. */
export function readLevel(text: string, context: Pick<CellContext, 'kind' | 'counted'>): Read<Band> {
	const source = tidy(text).replace(/^[A-Za-z0-9-]* ?(<|<=|\u2264|under|below) ?/i, '');
	if (context.kind === 'low-salinity') return readSalinityBand(source, text);
	if (context.kind === 'feed') return readFoodStrength(source, text);
	const band = readConcentrationBand(source, context.counted);
	return band.ok ? band : unreadable(band.problem.code, text, band.problem.expected);
}

function readSalinityBand(source: string, text: string): Read<Band> {
	const ends = /^([\d.]+) ?(?:-|to) ?([\d.]+) ?(ppt|psu|g\/kg)$/i.exec(source);
	const low = readSalinityCell(ends ? `${ends[1]} ${ends[3]}` : source);
	const high = ends ? readSalinityCell(`${ends[2]} ${ends[3]}`) : low;
	if (!low.ok) return unreadable(low.problem.code, text, low.problem.expected);
	if (!high.ok) return unreadable(high.problem.code, text, high.problem.expected);
	if (high.value < low.value) return unreadable('order', text, 'the lower salinity first');
	return read({ low: low.value, high: high.value });
}

function readFoodStrength(source: string, text: string): Read<Band> {
	const strength = readStrength(source);
	if (!strength.ok || strength.value.form !== 'powder')
		return unreadable('unit', text, 'milligrams of medicine per gram of food, such as 10 mg/g');
	const mgPerG = strength.value.gPerG * 1000;
	return read({ low: mgPerG, high: mgPerG });
}

/** One level inside the row's window. */
export function readAim(text: string, context: Pick<CellContext, 'kind' | 'counted'>): Read<number> {
	const band = readLevel(text, context);
	if (!band.ok) return band;
	return band.value.low === band.value.high
		? read(band.value.low)
		: unreadable('aim', text, 'one level, such as 0.18 mg/L');
}

export const printLevel = (level: Band, context: PrintContext): string =>
	`${figures(level.low, level.high)} ${unitOf(context)}`;

export const printAim = (aim: number, context: PrintContext): string =>
	printLevel({ low: aim, high: aim }, context);

function unitOf({ kind, counted }: Pick<PrintContext, 'kind' | 'counted'>): string {
	if (kind === 'low-salinity') return 'ppt';
	if (kind === 'feed') return 'mg/g';
	return counted === 'whole' ? 'uL/L' : 'mg/L';
}
