import { describe, expect, test } from 'vitest';
import { judge, withEntries, type SentEntry, type ShownRow } from './index.ts';
import { document, entries, held, morning, tankOf, told } from './sample-round.ts';

describe('what a device knows before the plan does', () => {
	const tank = tankOf(morning, document({}, held));
	const low: SentEntry = {
		id: 'low',
		at: '2027-02-05T08:31:00Z',
		kind: 'reading',
		task: 'copper/test/4',
		what: 'Cu',
		value: '0.12 mg/L'
	};
	const shown = (...made: SentEntry[]) => withEntries(tank, made, { judge });
	const dose = (rows: readonly ShownRow[]) => rows.find(({ kind }) => kind === 'dose');

	test('a sign or a loss logged without network counts at once', () => {
		expect(tank).toMatchObject({ standing: 'treated', why: 'no sign on record' });
		const sent = { id: 'own', at: '2027-02-05T08:31:00Z' };
		const look = { ...sent, kind: 'observation', signs: ['into-flow'] };
		expect(shown(look)).toMatchObject({
			standing: 'suspected',
			why: 'into flow logged',
			signs: ['into-flow']
		});
		expect(shown({ ...look, signs: ['none'] })).toMatchObject({ standing: 'treated' });
		const loss = { ...sent, kind: 'loss', lot: 'a', count: 2 };
		expect(shown(loss)).toMatchObject({ standing: 'sick', why: '2 lost just now' });
		const back = { id: 'void-own', at: sent.at, kind: 'correct', entry: 'own', void: true };
		expect(shown(look, back)).toMatchObject({ standing: 'treated', why: 'no sign on record' });
	});

	// the keepers' worked example: 112 L, forecast 0.17, reading 0.12, ceiling 0.20, 2 mg/mL: 1.6 mL
	test('a low reading sets the dose at once, and the plan marched again says the same', () => {
		const rows = shown(low).rows;
		expect(rows[0]?.verdict?.dose?.now).toEqual({ value: 1.6, unit: 'mL' });
		expect(dose(rows)).toMatchObject({ text: 'Ionic copper 1.6 mL', amended: 'By the reading just taken.' });
		// the rise was figured for another amount
		expect(dose(rows)?.line).not.toContain(' to ');
		const again = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), low] }));
		expect(again.rows.find(({ kind }) => kind === 'dose')?.text).toBe('Ionic copper 1.6 mL');
		// beside what was read stands what was expected before it, and its unit
		expect(again.rows[0]).toMatchObject({
			line: tank.rows[0]?.line,
			logged: [{ says: '0.12 mg/L' }]
		});
		expect(tank.rows[0]?.line).toContain('Forecast 0.17 mg/L');
		// read a second time, it is still the word from before both
		const twice = { ...low, id: 'low-again', at: '2027-02-05T08:31:30Z' };
		const after = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), low, twice] }));
		expect(after.rows[0]?.line).toBe(tank.rows[0]?.line);
	});

	test('law: for any reading the dose shown at once is the dose of the plan marched again', () => {
		for (let step = 2; step <= 20; step++) {
			const value = `${(step / 100).toFixed(2)} mg/L`;
			const reading = { ...low, value };
			const atOnce = dose(shown(reading).rows);
			const replanned = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), reading] }));
			const planned = replanned.rows.find(({ kind }) => kind === 'dose');
			expect([value, atOnce?.amount?.value ?? 0]).toEqual([value, planned?.amount?.value ?? 0]);
		}
	});

	test('a reading above the ceiling takes the dose away, here and in the plan marched again', () => {
		const high = { ...low, value: '0.25 mg/L' };
		expect(dose(shown(high).rows)).toMatchObject({
			amount: null,
			amended: 'No dose until a second reading.'
		});
		const again = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), high] }));
		expect(again.rows.find(({ kind }) => kind === 'dose')?.amount ?? null).toBeNull();
	});

	test('an entry answers its job, one taken back leaves it open, one the plan knows counts once', () => {
		const done = {
			id: 'd',
			at: '2027-02-05T08:40:00Z',
			kind: 'done',
			task: 'copper/dose/4',
			amount: '0.5 mL'
		};
		const back = { id: 'v', at: '2027-02-05T08:41:00Z', kind: 'correct', entry: 'd', void: true };
		expect(told(shown(done).rows)[2]).toEqual(['Ionic copper 0.5 mL', '0.5 mL']);
		expect(told(shown(done, back).rows)[2]).toEqual(['Ionic copper 0.5 mL', '']);
		const known = tankOf('2027-02-05T08:42:00Z', document({ log: [...entries(held), done] }));
		expect(withEntries(known, [done], { judge }).rows[2]?.logged.length).toBe(1);
		expect(withEntries(known, [done, back], { judge }).rows[2]?.logged).toEqual([]);
	});

	test('a reading answers only its own line of a test; skipping answers all of it', () => {
		expect(told(shown(low).rows).slice(0, 2)).toEqual([
			['Test copper', '0.12 mg/L'],
			['Test ammonia', '']
		]);
		const skip = { id: 's', at: low.at, kind: 'missed', task: 'copper/test/4', reason: 'no kit' };
		expect(told(shown(skip).rows).slice(0, 2)).toEqual([
			['Test copper', 'skipped: no kit'],
			['Test ammonia', 'skipped: no kit']
		]);
	});

	test('ammonia that asks for more water speaks on the change the plan has', () => {
		const phases = document().phases.map((row) =>
			row.id === 'copper' ? { ...row, change: '30% every 3 d' } : row
		);
		const changing = tankOf(morning, document({ phases }, held));
		expect(changing.rows.find(({ kind }) => kind === 'change')?.amount?.value).toBeCloseTo(33.6, 6);
		const amended = (value: string) => {
			const read = { ...low, what: 'NH3', value };
			return withEntries(changing, [read], { judge }).rows.find(({ kind }) => kind === 'change')?.amended;
		};
		// 5.61 % of 1 mg/L is 0.056 mg/L NH3-N: 1 - 0.02 / 0.0561 = 64.4 % of 112 L, 72.1 L and up to a whole litre
		expect(amended('1 mg/L')).toMatch(
			/^The ammonia just read asks for more, 7[23](\.\d)? L: change that much/
		);
		// 0.5 mg/L asks for 1 - 0.02 / 0.02805 = 28.7 %, 32.1 L: the planned change does it
		expect(amended('0.5 mg/L')).toBe('');
		expect(amended('0.2 mg/L')).toBe('');
	});

	test('a look of one’s own accord stands below the jobs', () => {
		const look = { id: 'l', at: low.at, kind: 'observation', signs: ['flashing'], appetite: 'picked' };
		expect(shown(look).logged.map(({ says }) => says)).toEqual(['flashing, food picked']);
	});
});
