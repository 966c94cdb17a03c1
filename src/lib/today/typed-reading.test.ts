import { describe, expect, test } from 'vitest';
import { readTyped } from './index.ts';
import { document, held, morning, tankOf } from './sample-round.ts';

describe('a reading as it is typed', () => {
	const ask = (what: string) => {
		const row = tankOf(morning, document({}, held)).rows.find((one) => one.ask?.what === what);
		if (!row?.ask) throw new Error(`no test of ${what}`);
		return row.ask;
	};
	const value = (what: string, text: string, system: 'metric' | 'us' = 'metric') => {
		const read = readTyped(ask(what), text, system);
		return read.ok ? [read.value.value, read.value.text] : read.problem.expected;
	};

	test('a bare number is meant in the unit shown, another unit of the kind is read as such', () => {
		expect(value('Cu', '0.12')).toEqual([0.12, '0.12 mg/L']);
		expect(value('Cu', '0,12')).toEqual([0.12, '0.12 mg/L']);
		expect(value('Cu', '120 ug/L')).toEqual([0.12, '120 ug/L']);
		expect(value('Cu', '0.12 ppm')).toEqual([0.12, '0.12 ppm']);
	});

	test('what cannot be read is said, never guessed', () => {
		for (const text of ['twelve', '-0.1', '0.12 mL', '0.1.2'])
			expect(typeof value('Cu', text)).toBe('string');
	});

	test('temperature follows the keeper’s units', () => {
		const read = readTyped({ ...ask('Cu'), what: 'T', unit: '°C' }, '79', 'us');
		// (79 - 32) / 1.8
		expect(read.ok && read.value.value).toBeCloseTo(26.11, 2);
		expect(read.ok && read.value.text).toBe('79 °F');
	});
});
