import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { planToIcs } from './ics.ts';
import { readIcs } from './read-ics.ts';

const now = '2027-01-30T00:00:00Z';
const copper = {
	id: 'copper',
	kind: 'hold',
	medicine: 'cu',
	starts: 'on 2027-02-01',
	lasts: '10 d',
	level: '0.15-0.20 mg/L',
	aim: '0.18 mg/L',
	repeat: 'ramp 2 d',
	test: 'Cu every 2 d'
};
const settle = { id: 'settle', kind: 'settle', starts: 'on 2027-02-01', lasts: '3 d', test: 'NH3 daily' };

/** The calendar of an invented run with these rows, as a file that follows on `since`. */
function fileOf(phases: object[], since = ''): string {
	const document = {
		format: 'lazaret-plan/1',
		id: 'quay',
		name: 'Quay',
		timeZone: 'America/Chicago',
		service: '08:00',
		tank: { name: 'Q7', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
		source: { name: 'mixed', ammonia: '0 mg/L', nitrate: '5 mg/L', salinity: '34 ppt' },
		medicines: [{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' }],
		phases
	};
	const run = readRun(document, { today: null });
	const before = readIcs(since);
	return planToIcs(run, plan(run, now), {
		now,
		since: before.ok ? before.value : [],
		kinds: ['test', 'dose']
	});
}

const eventsIn = (text: string) => {
	const read = readIcs(text);
	if (!read.ok) throw new Error('own file unreadable');
	return new Map(read.value.map((event) => [event.uid, event]));
};

describe('in a plan marched anew', () => {
	const first = fileOf([copper]);

	test('a row put in front renames no job of the rows behind it; each moves and outranks its old self', () => {
		const [was, is] = [
			eventsIn(first),
			eventsIn(fileOf([settle, { ...copper, starts: 'after settle' }], first))
		];
		expect(was.size).toBeGreaterThan(6);
		for (const [uid, { sequence, when }] of was) {
			expect(is.get(uid)?.sequence, uid).toBe(sequence + 1);
			expect(is.get(uid)?.when).not.toEqual(when);
			expect(is.get(uid)?.status).toBeNull();
		}
		expect([...is.keys()].filter((uid) => !was.has(uid))).toEqual(
			[1, 2, 3].map((n) => `settle/test/${n}@quay`)
		);
	});

	test('jobs put between others rename none and leave each its standing', () => {
		const [was, is] = [eventsIn(first), eventsIn(fileOf([{ ...copper, test: 'Cu daily' }], first))];
		expect(is.size).toBe(was.size + 5);
		for (const [uid, { sequence, when }] of was) expect(is.get(uid)).toMatchObject({ sequence, when });
	});
});
