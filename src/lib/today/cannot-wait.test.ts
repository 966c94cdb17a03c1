import { describe, expect, test } from 'vitest';
import { judge } from './index.ts';
import { document, tankOf, type Line } from './sample-round.ts';

describe('what cannot wait, read again from the log', () => {
	const morning: Line[] = [
		['2027-02-02T08:05:00Z', 'reading', { task: 'copper/test/1', what: 'NH3', value: '2.5 mg/L' }]
	];

	test('ammonia at an emergency keeps its stop, its litres and its card until it is read lower', () => {
		const stop = tankOf('2027-02-02T08:30:00Z', document({}, morning)).findings[0];
		expect(stop).toMatchObject({ rule: 'ammonia-now', severity: 'stop', card: 'fouling' });
		expect(stop?.because).toContain('change 97 L');
		const lower: Line = ['2027-02-02T09:00:00Z', 'reading', { what: 'NH3', value: '0.2 mg/L' }];
		const after = tankOf('2027-02-02T09:10:00Z', document({}, [...morning, lower]));
		expect(after.findings.map(({ rule }) => rule)).not.toContain('ammonia-now');
	});

	test('the change that ammonia asks for is a job of the day, with the litres of its verdict and of its stop', () => {
		const ask = tankOf('2027-02-02T08:02:00Z', document({}, [])).rows.find(
			({ ask: one }) => one?.what === 'NH3'
		)?.ask;
		if (!ask) throw new Error('ammonia is not tested today');
		expect(judge(ask, { value: 2.5 }).text).toContain('97 L (87 %) of matched water in one go now');
		const tank = tankOf('2027-02-02T08:30:00Z', document({}, morning));
		expect(tank.findings[0]?.because).toContain('change 97 L, 87 %');
		const row = tank.rows.find(({ kind }) => kind === 'change');
		expect(row).toMatchObject({
			text: 'Change 97 L at once',
			time: '08:05',
			state: 'open',
			amount: { value: 97 }
		});
		expect(row?.line).toBe('87 % · match 26 °C, 34 ppt');
		// 97 of 112 L in three steps leave (1 - 97 / 336)^3 = 36 % of the ammonia, in one go 13 %
		expect(row?.hazards.join()).toContain('Drain in one go');
	});

	test('the change that cannot wait stands before the dose of its morning, before and after it is done', () => {
		const told = (...more: Line[]) =>
			tankOf('2027-02-02T08:30:00Z', document({}, [...morning, ...more])).rows.map(({ kind, line }) =>
				`${kind} ${kind === 'dose' ? line : ''}`.trim()
			);
		expect(told()).toEqual(['change', 'test', 'test', 'dose after the change · 0 to 0.089 mg/L']);
		const changed: Line = ['2027-02-02T08:20:00Z', 'done', { task: 'copper/change/1.0805' }];
		expect(told(changed)).toEqual(['change', 'test', 'test', 'dose 0 to 0.089 mg/L']);
	});

	test('a pH that was read says how much of the ammonia is toxic', () => {
		const read: Line = ['2027-02-02T08:01:00Z', 'reading', { what: 'pH', value: '7.8' }];
		const { rows } = tankOf('2027-02-02T08:02:00Z', document({}, [read]));
		expect(rows.find(({ ask }) => ask?.what === 'NH3')?.ask?.ammonia?.water).toContain('pH 7.8');
	});

	test('two deaths among fish with signs are a stop, and the signs stay beside them', () => {
		const look: Line = ['2027-02-02T08:05:00Z', 'observation', { signs: ['gold-dust', 'fast-breathing'] }];
		const loss: Line = ['2027-02-02T08:10:00Z', 'loss', { lot: 'a', count: 2 }];
		const tank = tankOf('2027-02-02T08:30:00Z', document({}, [look, loss]));
		expect(tank.why).toBe('gold dust, fast breathing, 2 lost within 14 days');
		expect(tank.findings.find(({ rule }) => rule === 'call-the-vet')?.severity).toBe('stop');
		const quiet = tankOf('2027-02-02T08:30:00Z', document({}, [loss]));
		expect(quiet.findings.find(({ rule }) => rule === 'call-the-vet')?.severity).toBe('caution');
	});
});
