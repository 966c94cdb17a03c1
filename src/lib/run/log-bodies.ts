import {
	read,
	readConcentration,
	readFraction,
	readNumber,
	readTemperatureC,
	unreadable,
	type Read
} from '../units/index.ts';
import { readSalinityCell } from '../water/index.ts';
import { readMeasurable } from './cells/test.ts';
import type { Fact } from './log.ts';
import { unitOf } from './log-amount.ts';
import { readBag } from './log-bag.ts';
import type { Line } from './log-line.ts';
import { readLot } from './lot-reader.ts';
import { countedOf } from './medicine-reader.ts';
import { expectedId, rowId } from './place.ts';
import type { Json } from './reader.ts';
import type { Medicine } from './run.ts';
import {
	appetites,
	changeSources,
	equipment,
	measurables,
	readingForms,
	signs,
	takens,
	type LogKind
} from './vocabulary.ts';

type WithoutHead<T> = T extends Fact ? Omit<T, 'id' | 'at' | 'atMs' | 'by' | 'note'> : never;
/** What an entry says beside its head. */
export type Body = WithoutHead<Fact>;

/** Anything that could not be read has been told to the reader, and the entry is dropped whole: the nulls never get out. */
const body = (cells: Record<string, unknown>): Body => cells as unknown as Body;

const given = <T>(key: string, value: T | null | undefined): Record<string, T> =>
	value === null || value === undefined ? {} : { [key]: value };

/** One reader per kind of entry; each names only its own cells. `day` is the day of the entry. */
export const bodies: Readonly<Record<Exclude<LogKind, 'correct'>, (line: Line, day: string) => Body>> = {
	done: (line) => {
		const task = line.task();
		const amount = line.has('amount') ? line.amount(line.takesOf(task)) : null;
		return body({ kind: 'done', task, ...given('amount', amount) });
	},
	missed: (line) => body({ kind: 'missed', task: line.task(), ...given('reason', line.text('reason')) }),
	reading,
	observation,
	loss: (line) =>
		body({
			kind: 'loss',
			lot: line.lot(),
			count: line.count('count', 1, 'a whole number of fish that died, such as 1')
		}),
	fish,
	change,
	dose: (line) => {
		const bottle = line.medicine();
		const amount = line.amount({ unit: unitOf(bottle), mostL: line.isNew ? line.known.mostL : null });
		return body({ kind: 'dose', medicine: bottle?.id, amount });
	},
	equipment: (line) => {
		if (!line.has('on')) line.missing('on', 'true or false');
		return body({
			kind: 'equipment',
			what: line.word('what', equipment),
			on: line.reader.flag(line.at('on'), line.entry.on)
		});
	},
	topoff: (line) => body({ kind: 'topoff', litres: line.litres('litres', 'a volume such as 1 L') }),
	choice: (line) => body({ kind: 'choice', task: line.task(), taken: line.word('taken', takens) })
};

function observation(line: Line): Body {
	const { reader, entry } = line;
	const breaths = reader.number(
		line.at('breathsPerMinute'),
		entry.breathsPerMinute,
		0,
		1000,
		'breaths a minute from 0 to 1000, such as 80'
	);
	return body({
		kind: 'observation',
		signs: reader.words(line.at('signs'), entry.signs, signs),
		...given('task', line.has('task') ? line.task() : null),
		...given('lot', line.has('lot') ? line.lot() : null),
		...given('appetite', reader.word(line.at('appetite'), entry.appetite, appetites)),
		...given('breathsPerMinute', breaths),
		...given('photo', line.has('photo') ? line.photo() : null),
		...given('bag', readBag(line))
	});
}

const countOfLot = 'a whole number of fish that joined, or, negative, that left';

/** Fish that join bring their lot, and its arrival is the entry's day; a known lot grows or shrinks by a count. */
function fish(line: Line, day: string): Body {
	const { reader, entry } = line;
	const restart = line.has('restart') ? reader.flag(line.at('restart'), entry.restart) : true;
	if (typeof entry.lot === 'string') {
		const count = line.count('count', -100_000, countOfLot);
		if (count === 0 && line.isNew) reader.refuse(line.at('count'), 0, 'out-of-range', countOfLot);
		return body({ kind: 'fish', lotId: line.lot(), count, restart });
	}
	if (!line.has('lot')) line.missing('lot', 'a lot, or the id of one');
	const lot: Json = reader.object(line.at('lot'), entry.lot);
	const id = typeof lot.id === 'string' ? lot.id : '';
	if (!rowId.test(id)) reader.refuse(line.at('lot.id'), lot.id ?? '', 'id', expectedId);
	if (line.known.ownLots.has(id)) reader.refuse(line.at('lot.id'), id, 'duplicate-id', 'an id of its own');
	return body({ kind: 'fish', lot: { ...readLot(reader, line.at('lot'), lot, id), arrived: day }, restart });
}

function change(line: Line): Body {
	const { reader, entry } = line;
	const source = line.has('source') ? line.word('source', changeSources) : 'source';
	if (!line.has('fraction'))
		return body({
			kind: 'change',
			litres: line.litres('litres', 'litres such as 30 L, or a fraction'),
			source
		});
	if (line.has('litres'))
		reader.refuse(line.at('litres'), entry.litres, 'twice', 'litres or a fraction, not both');
	const fraction =
		typeof entry.fraction === 'number'
			? reader.number(line.at('fraction'), entry.fraction, 0, 1, 'a share from 0 to 1')
			: line.cell('fraction', 'a share such as 30%', readFraction);
	if (fraction === 0 && line.isNew)
		reader.refuse(line.at('fraction'), entry.fraction, 'out-of-range', 'more than nothing');
	return body({ kind: 'change', fraction, source });
}

/** Which kit forms go with which measurable. */
const formsOf: Readonly<Record<string, readonly (typeof readingForms)[number][]>> = {
	NH3: ['tan', 'nh3-total', 'nh3-free'],
	Cu: ['ionic', 'chelated']
};

function reading(line: Line): Body {
	const { reader, entry } = line;
	const ids = line.known.medicines.map(({ id }) => id);
	const expected = `one of ${[...measurables, ...ids].join(', ')}`;
	const what = line.cell('what', expected, (text): Read<string> => {
		const found = readMeasurable(text, ids);
		return found ? read(found) : unreadable('no-such-reading', text, expected);
	});
	const bottle = line.known.medicines.find(({ id }) => id === what);
	const { grammar, example } = grammarOf(what, bottle);
	const value =
		typeof entry.value === 'number' && what === 'pH'
			? reader.number(line.at('value'), entry.value, 0, 14, 'a pH from 0 to 14')
			: line.cell('value', example, line.isNew ? inWater(what, grammar) : grammar);
	const as = reader.word(line.at('as'), entry.as, readingForms);
	const forms = formsOf[what ?? ''] ?? [];
	if (as && what !== null && !forms.includes(as))
		reader.refuse(
			line.at('as'),
			as,
			'word',
			forms.length ? `one of ${forms.join(', ')}` : 'no such key here'
		);
	const task = line.has('task') ? line.task() : null;
	return body({ kind: 'reading', what, value, ...given('task', task), ...given('as', as) });
}

type Grammar = (text: string) => Read<number>;

function grammarOf(what: string | null, bottle: Medicine | undefined): { grammar: Grammar; example: string } {
	if (what === 'S') return { grammar: readSalinityCell, example: 'a salinity such as 34 ppt' };
	if (what === 'T') return { grammar: readTemperatureC, example: 'a temperature such as 26 C' };
	if (what === 'pH') return { grammar: readPh, example: 'a pH such as 8.1' };
	return {
		grammar: (text) => readConcentration(text, bottle ? countedOf(bottle.active) : 'mass'),
		example: 'a value with its unit, such as 0.12 mg/L'
	};
}

/** What water with fish in it can read at all: past it a unit was taken for another (judgment, no source). */
const possible: Readonly<Record<string, { low: number; high: number; expected: string }>> = {
	T: {
		low: 0,
		high: 45,
		expected: 'a temperature of water with fish in it, 0 to 45 C, such as 26 C or 79 F'
	},
	S: { low: 0, high: 60, expected: 'a salinity of at most 60 ppt, such as 34 ppt' }
};

/** The same grammar, for a reading on its way into the log. */
function inWater(what: string | null, grammar: Grammar): Grammar {
	const range = possible[what ?? ''];
	if (!range) return grammar;
	return (text) => {
		const value = grammar(text);
		return !value.ok || (value.value >= range.low && value.value <= range.high)
			? value
			: unreadable('out-of-range', text, range.expected);
	};
}

function readPh(text: string): Read<number> {
	const value = readNumber(text.trim().replace(/^pH ?/i, ''));
	if (!value.ok) return unreadable(value.problem.code, text, 'a pH such as 8.1');
	return value.value >= 0 && value.value <= 14
		? value
		: unreadable('out-of-range', text, 'a pH from 0 to 14');
}
