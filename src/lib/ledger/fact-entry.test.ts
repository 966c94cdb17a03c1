import { describe, expect, it } from 'vitest';
import { readPlanFile, type LogKind } from '../run/index.ts';
import { factKinds, type FactKind } from './fact-kinds.ts';
import {
	factOf,
	freeLotId,
	measureTyped,
	momentTrouble,
	troublesOf,
	typedOf,
	type RawEntry,
	type Typed
} from './fact-entry.ts';
import { measureOf, shownStep, shownValue } from './measures.ts';
import { instantIn } from './moment.ts';
import { document, named } from './sample.ts';

const { run } = named([]);
const entry = (kind: FactKind, typed: Typed): RawEntry => {
	const measure = typeof typed.what === 'string' ? measureOf(run, typed.what) : null;
	return { id: 'n', at: '2026-12-03T08:05:00-06:00', ...factOf(kind, typed, measure) };
};
const told = (kind: FactKind, typed: Typed) => troublesOf(document, [], entry(kind, typed), kind);

/** kind, what is typed, what the log gets beside `kind` */
const writes: [FactKind, Typed, Record<string, unknown>][] = [
	['reading', { what: 'Cu', value: '0.17', as: 'ionic' }, { what: 'Cu', value: '0.17 mg/L', as: 'ionic' }],
	['reading', { what: 'Cu', value: '170 ug/L' }, { what: 'Cu', value: '170 ug/L' }],
	['reading', { what: 'T', value: '26.5' }, { what: 'T', value: '26.5 C' }],
	['reading', { what: 'pH', value: '8.1' }, { what: 'pH', value: '8.1' }],
	['reading', { what: 'S', value: '34 ppt' }, { what: 'S', value: '34 ppt' }],
	[
		'observation',
		{ lot: 'a', signs: ['haze', 'flashing'], appetite: 'refused', breathsPerMinute: '90', note: 'hides' },
		{ lot: 'a', signs: ['haze', 'flashing'], appetite: 'refused', breathsPerMinute: 90, note: 'hides' }
	],
	['observation', { signs: ['none'] }, { signs: ['none'] }],
	['done', { task: 'copper/dose/1', amount: '5.0 mL' }, { task: 'copper/dose/1', amount: '5.0 mL' }],
	['missed', { task: 'copper/test/3', reason: 'away' }, { task: 'copper/test/3', reason: 'away' }],
	['loss', { lot: 'a', count: '1' }, { lot: 'a', count: 1 }],
	['change', { water: '30 L', source: 'source' }, { litres: '30 L', source: 'source' }],
	['change', { water: '25 %', source: 'fresh' }, { fraction: '25 %', source: 'fresh' }],
	['dose', { medicine: 'cu', amount: '2.0 mL' }, { medicine: 'cu', amount: '2.0 mL' }],
	['topoff', { litres: '1.5 L' }, { litres: '1.5 L' }],
	['equipment', { what: 'carbon', on: false }, { what: 'carbon', on: false }],
	[
		'joins',
		{ id: 'b', what: 'wrasse', group: 'wrasse', count: '1', restart: true },
		{ lot: { id: 'b', what: 'wrasse', group: 'wrasse', count: 1 }, restart: true }
	],
	['leaves', { lot: 'a', count: '2' }, { lot: 'a', count: -2 }]
];

describe('what is typed', () => {
	it.each(writes)('%s: %j', (kind, typed, expected) => {
		const { id: _id, at: _at, kind: written, ...cells } = entry(kind, typed);
		expect(cells).toEqual(expected);
		expect(written).toBe(factKinds.find((row) => row.kind === kind)?.writes);
	});

	it('is taken by a plan file, every kind of it', () => {
		const kinds = new Set<LogKind>();
		for (const [kind, typed] of writes) {
			const file = readPlanFile(JSON.stringify({ ...document, log: [entry(kind, typed)] }));
			expect([kind, file.ok || file.sentence]).toEqual([kind, true]);
			expect(told(kind, typed)).toEqual([]);
			if (file.ok) kinds.add(file.value.run.log[0]?.kind ?? 'correct');
		}
		expect(kinds.size).toBe(10);
	});

	it('stands in the form again when the entry is corrected', () => {
		for (const [kind, typed] of writes) {
			const again = typedOf(entry(kind, typed));
			expect(again?.kind).toBe(kind);
			expect(entry(kind, again?.typed ?? {})).toEqual(entry(kind, typed));
		}
	});
});

describe('what the log would refuse is said at its field', () => {
	it.each<[string, FactKind, Typed, string, RegExp]>([
		['no measure', 'reading', { value: '0.1' }, 'what', /^Needed here: one of NH3/],
		['no value', 'reading', { what: 'Cu' }, 'value', /^Needed here: a value with its unit/],
		['a word', 'reading', { what: 'Cu', value: 'low' }, 'value', /^“low” was not understood: expected/],
		['a unit that does not fit', 'reading', { what: 'Cu', value: '5 L' }, 'value', /^“5 L” was not/],
		['a kit of another kind', 'reading', { what: 'NO3', value: '5', as: 'ionic' }, 'as', /^“ionic” was not/],
		['no task', 'done', {}, 'task', /^Needed here: the id of a task/],
		['an amount without a unit', 'done', { task: 'copper/dose/1', amount: '5' }, 'amount', /^“5” was not/],
		['half a fish', 'loss', { lot: 'a', count: '0.5' }, 'count', /^“0.5” was not/],
		['no litres', 'change', { source: 'source' }, 'water', /^Needed here: litres such as 30 L/],
		[
			'more than all',
			'change',
			{ water: '300 %', source: 'source' },
			'water',
			/^“300 %” does not fit: expected/
		],
		[
			'nobody died',
			'loss',
			{ lot: 'a', count: '0' },
			'count',
			/^“0” was not .* a whole number of fish that died/
		],
		[
			'nobody left',
			'leaves',
			{ lot: 'a', count: '0' },
			'count',
			/^“0” does not fit: expected a whole number of fish, such as 1/
		],
		[
			'some left',
			'leaves',
			{ lot: 'a', count: 'some' },
			'count',
			/^“some” was not .* a whole number of fish, such as 1/
		],
		['nobody joined', 'joins', { id: 'b', what: 'goby', count: '0' }, 'count', /^“0” does not fit/],
		[
			'degrees Fahrenheit as Celsius',
			'reading',
			{ what: 'T', value: '79' },
			'value',
			/^“79 C” does not fit: .* 0 to 45 C/
		],
		[
			'more salt than water bears',
			'reading',
			{ what: 'S', value: '340' },
			'value',
			/^“340 ppt” does not fit: .* 60 ppt/
		],
		['no pH', 'reading', { what: 'pH', value: '' }, 'value', /^Needed here: a pH such as 8.1/],
		[
			'a lake of medicine',
			'dose',
			{ medicine: 'cu', amount: '500 L' },
			'amount',
			/^“500 L” does not fit: expected at most/
		],
		['breaths in words', 'observation', { breathsPerMinute: 'fast' }, 'breathsPerMinute', /^“fast” was not/],
		[
			'nobody',
			'joins',
			{ id: 'b', group: 'other', restart: true },
			'what',
			/^Needed here: what the fish are/
		],
		['an unread mass', 'joins', { id: 'b', what: 'goby', count: '1', mass: 'ten' }, 'mass', /^“ten” was not/]
	])('%s', (_, kind, typed, field, sentence) => {
		const [first] = told(kind, typed);
		expect(first).toEqual({ field, sentence: expect.stringMatching(sentence) as string });
	});

	it('speaks of the new entry only', () => {
		const broken = { id: 'old', at: 'yesterday', kind: 'wish' };
		expect(troublesOf(document, [broken], entry('topoff', { litres: '1 L' }), 'topoff')).toEqual([]);
	});
});

describe('a moment', () => {
	const nowMs = Date.parse('2026-12-03T14:00:00Z');
	const trouble = (day: string, time: string, zone = 'America/Chicago') =>
		momentTrouble({ day, time, placed: () => instantIn(zone, day, time) }, nowMs, '2026-11-27');

	it.each([
		['2026-12-03', '08:00', null],
		['2026-12-03', '08:05', /^That is still to come/],
		['2027-12-03', '08:05', /^That is still to come/],
		['2026-02-30', '08:00', /^“2026-02-30” was not understood: expected a date that exists/],
		['', '08:00', /^Needed here: a date that exists/],
		['2026-12-03', '8', /^“8” was not understood: expected a time of day/],
		['2026-12-03', '', /^Needed here: a time of day/],
		['2026-10-01', '08:00', null],
		[
			'2025-11-27',
			'08:00',
			/^That is long before this run, which begins on 2026-11-27: look at the year of 2025-11-27/
		]
	])('%s %s', (day, time, says) => {
		if (says === null) expect(trouble(day, time)).toBeNull();
		else expect(trouble(day, time)).toMatch(says);
	});

	// the second Sunday of March, from two to three (15 U.S.C. 260a)
	it('that a clock change skips is told with the one that there was', () => {
		const late = Date.parse('2027-03-20T00:00:00Z');
		const placed = (time: string) => () => instantIn('America/Chicago', '2027-03-14', time);
		const at = (time: string) =>
			momentTrouble({ day: '2027-03-14', time, placed: placed(time) }, late, '2027-03-01');
		expect(at('02:30')).toBe(
			'On 2027-03-14 there was no 02:30: the clocks went forward. Take 03:30, or a time before the gap.'
		);
		expect([at('01:59'), at('03:00')]).toEqual([null, null]);
	});
});

it('fish that join get an id of their own', () => {
	const joined = { ...entry('joins', { id: 'lot-2', what: 'goby', count: '1', restart: true }), id: '1' };
	expect(freeLotId(run)).toBe('lot-2');
	expect(freeLotId(named([joined]).run)).toBe('lot-3');
});

it('reads a bare temperature of the file as Celsius, on a page in Fahrenheit too', () => {
	const raw = { id: '1', at: '2026-12-03T08:05:00-06:00', kind: 'reading', what: 'T', value: 25.5 };
	const typed = typedOf(raw)?.typed ?? {};
	expect(factOf('reading', typed, measureTyped(run, typed, 'us'))).toMatchObject({ value: '25.5 C' });
	// 25.5 C is 77.9 F, and a step of 1 C is one of 1.8 F, by the definition of the scale
	const degrees = measureOf(run, 'T', 'us');
	expect(shownValue(degrees, 25.5)).toBeCloseTo(77.9, 10);
	expect(shownStep(degrees, -1)).toBeCloseTo(-1.8, 10);
	expect(shownStep(measureOf(run, 'S', 'us'), -1)).toBe(-1);
});
