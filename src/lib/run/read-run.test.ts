import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellColumns, readCell, readPlanFile, readRun, runIdOf } from './index.ts';
import { placesOf } from './place.ts';
import { sharpest } from './plan-file.ts';
import { fullDocument, withPlace } from './sample.ts';
import { planSchema } from './schema.ts';

const today = '2026-11-25';
const sheet = (document: unknown) => readRun(document, { today });
const problemAt = (path: string, value: unknown) =>
	sheet(withPlace(fullDocument, path, value)).problems.map(({ cell }) => cell);

describe('a sheet', () => {
	it('reads a sound document without a problem, as a file does', () => {
		expect(sheet(fullDocument).problems).toEqual([]);
		expect(sheet(fullDocument)).toEqual(readRun(fullDocument, { today: null }));
	});

	it('keeps the text of a cell it cannot read, and plans without it', () => {
		const run = sheet(withPlace(fullDocument, 'phases.1.lasts', 'a while'));
		expect(run.problems).toEqual([
			{
				cell: 'phases.copper.lasts',
				code: expect.any(String),
				seen: 'a while',
				expected: expect.stringContaining('14 d')
			}
		]);
		expect(run.phases[1]).toMatchObject({
			id: 'copper',
			lasts: null,
			starts: { after: 'settle', plusDays: 1 }
		});
	});

	it('takes an emptied cell for an absent one', () => {
		for (const path of ['tank.net', 'phases.1.level', 'medicines.0.strength', 'lots.0.mass']) {
			expect([path, problemAt(path, '')]).toEqual([path, []]);
			expect([path, problemAt(path, null)]).toEqual([path, []]);
		}
	});

	it('reads a date without its year as the nearest one, and row numbers as rows', () => {
		const run = sheet(
			withPlace(withPlace(fullDocument, 'phases.0.starts', 'on 3 Jan'), 'phases.1.starts', 'after 1')
		);
		expect(run.problems).toEqual([]);
		expect(run.phases.slice(0, 2).map(({ starts }) => starts)).toEqual([
			{ on: '2027-01-03' },
			{ after: 'settle', plusDays: 0 }
		]);
	});

	it('tells each phase of a ring, and no other, that it waits for itself', () => {
		const phases = [
			{ id: 'a', kind: 'observe', starts: 'after c', lasts: '1 d' },
			{ id: 'b', kind: 'observe', starts: 'with a', lasts: '1 d' },
			{ id: 'c', kind: 'observe', starts: 'after b', lasts: '1 d' },
			{ id: 'd', kind: 'observe', starts: 'after c', lasts: '1 d' },
			{ id: 'e', kind: 'observe', starts: 'after e', lasts: '1 d' }
		];
		const run = sheet({ ...fullDocument, phases, moves: {}, log: [] });
		expect(run.problems.map(({ cell, code }) => `${cell} ${code}`)).toEqual([
			'phases.a.starts cycle',
			'phases.b.starts cycle',
			'phases.c.starts cycle',
			'phases.e.starts cycle'
		]);
		expect(run.phases.map(({ starts }) => starts !== null)).toEqual([false, false, false, true, false]);
	});

	it('follows a chain of 500 phases', () => {
		const phases = Array.from({ length: 500 }, (_, i) => ({
			id: `p${i}`,
			kind: 'observe',
			starts: i === 0 ? 'on 2026-11-27' : `after p${i - 1}`,
			lasts: '1 d'
		}));
		const run = sheet({ format: 'lazaret-plan/1', timeZone: 'UTC', phases });
		expect(run.problems).toEqual([]);
		expect(run.phases).toHaveLength(500);
	});

	it('counts 37 % formaldehyde as the whole liquid, and asks about any other strength', () => {
		const strengthOf = (text: string) =>
			sheet(withPlace(fullDocument, 'medicines.2.strength', text)).medicines[2]?.strength;
		for (const text of ['1 mL/mL', '37 %', '37% formaldehyde', '37 % w/w']) {
			expect([text, strengthOf(text)]).toEqual([text, { form: 'whole', mlPerMl: 1 }]);
		}
		for (const text of ['10 %', '10 % w/v', '40 % w/w', '37', '3.7 %'])
			expect([text, strengthOf(text)]).toEqual([text, null]);
	});

	it('has an id of its own, or one made of its name', () => {
		expect(sheet(fullDocument).id).toBe('winter-tangs');
		const named = sheet(withPlace(fullDocument, 'id', undefined));
		expect(named.id).toBe(runIdOf('Winter tangs'));
		expect(runIdOf('Winter tangs ')).not.toBe(named.id);
		// FNV-1a, 64 bit: test vectors of the hash's authors (Fowler, Noll, Vo), draft-eastlake-fnv
		expect([runIdOf(''), runIdOf('a'), runIdOf('foobar')]).toEqual([
			'cbf29ce484222325',
			'af63dc4c8601ec8c',
			'85944171f73967e8'
		]);
	});
});

describe('whatever it is given', { timeout: 30_000 }, () => {
	const settings = { seed: 2026, numRuns: 500 };
	const keys = fc.constantFrom(
		'id',
		'kind',
		'starts',
		'tank',
		'phases',
		'log',
		'lots',
		'medicines',
		'net',
		'at',
		'as',
		'lot',
		'moves',
		'__proto__',
		'service',
		'heater'
	);
	const { json } = fc.letrec((tie) => ({
		json: fc.oneof(
			{ depthSize: 'small' },
			fc.constantFrom<unknown>(
				null,
				true,
				'',
				'-5 L',
				'after 1',
				'NaN',
				'1e999 L',
				'on 30 Feb',
				'🐟',
				'RRULE:FREQ=DAILY',
				'correct',
				'observe'
			),
			fc.string(),
			fc.double(),
			fc.array(tie('json'), { maxLength: 4 }),
			fc.dictionary(fc.oneof(keys, fc.string()), tie('json'), { maxKeys: 6 })
		)
	}));

	/** Every path of the sample that can be set to something else. */
	const paths = (node: unknown, at: string[] = []): string[] =>
		typeof node === 'object' && node !== null
			? Object.entries(node).flatMap(([key, value]) => [
					[...at, key].join('.'),
					...paths(value, [...at, key])
				])
			: [];
	const place = fc.constantFrom(...paths(fullDocument).filter((path) => path !== 'format'));
	const leaf = fc.oneof(
		json,
		fc.constant(undefined),
		fc.constantFrom('0.18 mg/L', '14 d', 'NH3 daily', 'a', 'copper/dose/1', 'none', 'auto', '37 %')
	);

	it('a sheet is read to the end: any JSON', () => {
		fc.assert(
			fc.property(json, (value) => {
				expect(Array.isArray(sheet(value).problems)).toBe(true);
				expect(readPlanFile(JSON.stringify(value)).ok).toBe(false);
			}),
			settings
		);
	});

	it('a sheet is read to the end: a sound document with one place turned to anything', () => {
		fc.assert(
			fc.property(place, leaf, (path, value) => {
				const run = sheet(withPlace(fullDocument, path, value));
				expect(run.services.length).toBeGreaterThan(0);
				for (const { cell, seen, expected } of run.problems) {
					expect(typeof cell).toBe('string');
					expect(typeof seen).toBe('string');
					expect(expected).not.toBe('');
				}
			}),
			settings
		);
	});

	it('a file is read when the schema and the cells both allow it, and else refused', () => {
		fc.assert(
			fc.property(place, leaf, (path, value) => {
				const text = JSON.stringify(withPlace(fullDocument, path, value));
				const document: unknown = JSON.parse(text);
				const shape = planSchema().safeParse(document).success;
				const problems = readRun(document, { today: null }).problems;
				expect(readPlanFile(text).ok).toBe(shape && problems.length === 0);
			}),
			settings
		);
	});

	it('what has the wrong shape for the schema is a problem of the sheet too, in the same place', () => {
		// a key too many, a key too few and an overlong text are the business of files alone
		const alone = new Set(['unrecognized_keys', 'too_big', 'too_small', 'missing']);
		fc.assert(
			fc.property(place, leaf, (path, value) => {
				const document: unknown = JSON.parse(JSON.stringify(withPlace(fullDocument, path, value)));
				const { nameOf, under } = placesOf(document);
				const cells = readRun(document, { today: null }).problems.map(({ cell }) => cell);
				for (const issue of planSchema().safeParse(document).error?.issues ?? []) {
					const { sharp, path: at } = sharpest(issue, []);
					const where = nameOf(at);
					if (alone.has(under(where) === undefined ? 'missing' : sharp.code)) continue;
					// a row without an id or a kind of its own is left out whole
					const row = where.split('.').slice(0, 2).join('.');
					const near = cells.some(
						(cell) =>
							`${cell}.`.startsWith(`${where}.`) ||
							`${where}.`.startsWith(`${cell}.`) ||
							[`${row}.id`, `${row}.kind`].includes(cell)
					);
					expect([path, where, near]).toEqual([path, where, true]);
				}
			}),
			settings
		);
	});

	it('text that is no plan is refused in one sentence', () => {
		fc.assert(
			fc.property(
				fc.oneof(
					fc.string(),
					fc.string({ unit: 'binary' }),
					fc.nat(2000).map((n) => JSON.stringify(fullDocument).slice(0, n))
				),
				(text) => {
					const read = readPlanFile(text);
					expect(read.ok).toBe(false);
					if (!read.ok) expect(read.sentence).toMatch(/saw .+, expected .+/);
				}
			),
			settings
		);
	});

	it('a cell of any text is read or says what it expected', () => {
		const words = fc.constantFrom(
			'after',
			'with',
			'+',
			'2',
			'd',
			'every',
			'daily',
			'%',
			'until',
			'clear',
			'ramp',
			'on',
			'Nov',
			'27',
			'mg/L',
			'-',
			'RRULE:',
			'FREQ=DAILY',
			';',
			'NH3',
			',',
			'Mon',
			'\u2013',
			'1e9'
		);
		const text = fc.oneof(
			fc.string({ unit: 'grapheme' }),
			fc.array(words, { maxLength: 8 }).map((parts) => parts.join(' '))
		);
		const context = { rows: ['a', 'b'], medicines: ['cu'], counted: 'mass', kind: 'hold', today } as const;
		fc.assert(
			fc.property(fc.constantFrom(...cellColumns), text, (column, typed) => {
				const result = readCell(column, typed, context);
				if (!result.ok) expect([result.problem.seen, result.problem.expected === '']).toEqual([typed, false]);
				else expect(result.value).not.toBeUndefined();
			}),
			{ seed: 5, numRuns: 5000 }
		);
	});
});
