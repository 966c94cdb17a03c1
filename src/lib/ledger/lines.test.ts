import { describe, expect, it } from 'vitest';
import type { RawEntry } from './fact-entry.ts';
import { filtered, logLines, writersOf } from './lines.ts';
import { named } from './sample.ts';

const at = (hour: number) => `2026-12-02T${String(hour).padStart(2, '0')}:00:00-06:00`;
const log: RawEntry[] = [
	{ id: '1', at: at(8), kind: 'reading', what: 'Cu', value: '0.12 mg/L', as: 'ionic' },
	{
		id: '2',
		at: at(9),
		kind: 'observation',
		lot: 'a',
		signs: ['haze'],
		appetite: 'refused',
		breathsPerMinute: 90
	},
	{
		id: '3',
		at: at(10),
		kind: 'correct',
		entry: '1',
		as: { kind: 'reading', what: 'Cu', value: '0.17 mg/L' }
	},
	{ id: '4', at: at(11), kind: 'topoff', litres: '1 L', by: 'Ida' },
	{ id: '5', at: at(12), kind: 'correct', entry: '4', void: true }
];
const lines = logLines(named(log), log, [
	{ id: '1', who: 'Ole' },
	{ id: '4', who: 'keeper' }
]);
const line = (id: string) => lines.find((one) => one.id === id);

describe('the log in words', () => {
	it('has every entry, newest first, on the run’s own clock', () => {
		expect(lines.map(({ id, day, time }) => [id, day, time])).toEqual([
			['5', '2026-12-02', '12:00'],
			['4', '2026-12-02', '11:00'],
			['3', '2026-12-02', '10:00'],
			['2', '2026-12-02', '09:00'],
			['1', '2026-12-02', '08:00']
		]);
	});

	it('keeps what was corrected, and says what holds now', () => {
		expect(line('1')).toMatchObject({
			words: 'Copper read at 0.12 mg/L, ionic scale',
			struck: true,
			now: 'Copper read at 0.17 mg/L, ionic scale'
		});
		expect(line('3')).toMatchObject({
			words: 'Correction: Copper read at 0.17 mg/L',
			was: 'Copper read at 0.12 mg/L, ionic scale',
			struck: false
		});
		expect(line('4')).toMatchObject({ struck: true, now: 'taken back' });
		expect(line('5')).toMatchObject({ words: 'Taken back', was: 'Topped off with 1 L of fresh water' });
		expect(line('2')?.words).toBe(
			'Banded cardinalfish: whitish haze or film, food refused, 90 breaths a minute'
		);
	});

	it('a correction that was taken back is struck, and the entry stands again', () => {
		const more: RawEntry[] = [...log, { id: '6', at: at(13), kind: 'correct', entry: '3', void: true }];
		const struck = logLines(named(more), more, []).filter((one) => one.struck);
		expect(struck.map(({ id, now }) => [id, now])).toEqual([
			['4', 'taken back'],
			['3', 'taken back']
		]);
	});

	it('is filtered by kind and by whom', () => {
		expect(filtered(lines, { kind: 'correct', by: '' }).map(({ id }) => id)).toEqual(['5', '3']);
		expect(filtered(lines, { kind: '', by: 'Ida' }).map(({ id }) => id)).toEqual(['4']);
		expect(writersOf(lines)).toEqual(['Ida', 'Ole']);
	});
});

it.each<[object, string]>([
	[{ kind: 'done', task: 'copper/test/1' }, 'Done: Test Cu, NH3'],
	[
		{ kind: 'missed', task: 'copper/test/2', reason: 'nobody was there' },
		'Not done: Test Cu, NH3, because nobody was there'
	],
	[{ kind: 'loss', lot: 'a', count: 1 }, 'Banded cardinalfish: 1 fish died'],
	[{ kind: 'change', fraction: 0.25, source: 'fresh' }, 'Unplanned change of 25 % with fresh water'],
	[{ kind: 'change', litres: '30 L' }, 'Unplanned change of 30 L with display water'],
	[{ kind: 'dose', medicine: 'pz', amount: '280 mg' }, 'Unplanned dose: Praziquantel 280 mg'],
	[{ kind: 'equipment', what: 'heater', on: false }, 'Heater off or failed'],
	[{ kind: 'fish', lot: { id: 'b', what: 'goby', count: 2 } }, '2 fish joined: goby; credits restart'],
	[{ kind: 'fish', lot: 'a', count: -2 }, 'Banded cardinalfish: 2 fish left'],
	[{ kind: 'choice', task: 'copper/test/2', taken: 'skip' }, 'Choice for Test Cu, NH3: leave it out'],
	[{ kind: 'observation', signs: ['none'], appetite: 'eaten' }, 'All fish: no signs, food eaten'],
	[{ kind: 'reading', what: 'pH', value: 8.1 }, 'pH read at 8.1'],
	[
		{ kind: 'reading', what: 'NH3', value: '0.5 ppm', as: 'nh3-total' },
		'Ammonia read at 0.5 mg/L, total, as NH₃'
	]
])('says %j', (cells, words) => {
	const raw = { id: 'x', at: at(8), ...cells } as RawEntry;
	expect(logLines(named([raw]), [raw], [])[0]?.words).toBe(words);
});
