import { medicines } from '../formulary/index.ts';
import { readDay, type Day, type Run } from '../run/index.ts';
import { measuresOf, type Measure } from './measures.ts';

/** What a column of a pasted block holds. */
export type Heading =
	| { is: 'date' | 'time' | 'what' | 'value' | 'unit' | 'form' | 'note' | 'id' }
	/** readings of one measure, one to a row */
	| { is: 'measure'; measure: Measure; unit: string }
	| { is: 'nothing' };

const plain: Record<string, Exclude<Heading['is'], 'measure' | 'nothing'>> = {
	date: 'date',
	day: 'date',
	when: 'date',
	time: 'time',
	hour: 'time',
	what: 'what',
	test: 'what',
	parameter: 'what',
	measure: 'what',
	measurement: 'what',
	value: 'value',
	result: 'value',
	reading: 'value',
	level: 'value',
	unit: 'unit',
	units: 'unit',
	form: 'form',
	as: 'form',
	scale: 'form',
	note: 'note',
	notes: 'note',
	remark: 'note',
	comment: 'note',
	id: 'id'
};

const synonyms: Record<string, string> = {
	ammonia: 'NH3',
	nh3: 'NH3',
	nh4: 'NH3',
	tan: 'NH3',
	nitrite: 'NO2',
	nitrate: 'NO3',
	copper: 'Cu',
	salinity: 'S',
	temperature: 'T',
	temp: 'T',
	oxygen: 'O2'
};

/** The measure a word names: as the log writes it, in plain English, or a medicine of the run. */
export function measureNamed(text: string, run: Run): Measure | null {
	const word = text.trim().toLowerCase().replaceAll('₃', '3').replaceAll('₂', '2');
	const known = measuresOf(run);
	const what = synonyms[word] ?? word;
	const byActive = run.medicines.find(
		({ id, active }) =>
			id.toLowerCase() === word || active === word || medicines[active].name.toLowerCase() === word
	);
	const id = byActive?.active.startsWith('copper') ? 'Cu' : byActive?.id;
	return (
		known.find((measure) => measure.what.toLowerCase() === what.toLowerCase()) ??
		known.find((measure) => measure.what === id) ??
		null
	);
}

/** What a heading says its column holds: `Copper, mg/L`, `Cu (mg/L)`, `NH3 reading`, `date`. */
export function headingOf(text: string, run: Run): Heading {
	const [, name = '', inBrackets, afterComma] =
		/^([^(,[]*)(?:[([]\s*([^)\]]*)[)\]]|,\s*(.*))?\s*$/.exec(text.trim()) ?? [];
	const word = name.trim().toLowerCase();
	if (/\bforecast$|\bdifference$/.test(word)) return { is: 'nothing' };
	const key = plain[word];
	if (key) return { is: key };
	const measure = measureNamed(word.replace(/\s*\b(reading|test|level)$/, ''), run);
	return measure
		? { is: 'measure', measure, unit: (inBrackets ?? afterComma ?? '').trim() }
		: { is: 'nothing' };
}

const clock = /^([01]?\d|2[0-3])[:.h]([0-5]\d)(:[0-5]\d)?$/;

/** `8:05`, `08.05` as `08:05`; null: no time of day. */
export function timeOf(text: string): string | null {
	const parts = clock.exec(text.trim());
	return parts ? `${String(Number(parts[1])).padStart(2, '0')}:${parts[2]}` : null;
}

/** The columns of a block without a heading, told by what stands in its first row. */
export function headingsFrom(row: readonly string[], run: Run, today: Day): Heading[] {
	const found = new Set<Heading['is']>();
	const first = (is: 'date' | 'time' | 'what' | 'value', fits: boolean): Heading | null => {
		if (!fits || found.has(is)) return null;
		found.add(is);
		return { is };
	};
	return row.map(
		(cell) =>
			first('date', readDay(cell.split(/[T ](?=\d)/)[0] ?? '', today).ok) ??
			first('time', cell.includes(':') && timeOf(cell) !== null) ??
			first('what', measureNamed(cell, run) !== null) ??
			first('value', /^[<>]?\s*[\d.,]+(\s*\S+)?$/.test(cell.trim())) ?? { is: 'nothing' }
	);
}
