import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { judgeMove } from './caldav-move.ts';
import { decide, openProposals, propose } from './caldav-proposals.ts';
import { addAccount } from './caldav-accounts.ts';
import { freshStore } from './fresh-store.ts';
import { createRun, getRun } from './runs.ts';
import { calendarFile } from './calendar-file.ts';
import { saveEdits } from './edits.ts';

const now = '2026-11-27T12:00:00Z';

/** An invented run with two doses against flukes a week apart, in water of 26 degrees. */
const document = {
	format: 'lazaret-plan/1',
	name: 'Harbour tangs',
	timeZone: 'America/Chicago',
	service: '08:00',
	tank: { name: 'Q7', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	lots: [{ id: 'a', what: 'tangs', group: 'tang', count: 2, mass: '60 g', arrived: '2026-11-27' }],
	medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
	phases: [
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'on 2026-11-28',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		}
	]
};

async function stored() {
	const store = await freshStore('sqlite');
	store.now = () => now;
	const made = await createRun(store, { id: 'harbour', document, who: 'ada' });
	if (!made.ok) throw new Error(made.sentence);
	return store;
}

const wish = (day: string, ...tasks: string[]) => ({
	run: 'harbour',
	tasks: tasks.length ? tasks : ['flukes/dose/2'],
	day
});

describe('a time moved on a phone', () => {
	test('goes where the plan can follow, and says what else would change', async () => {
		const judged = await judgeMove(await stored(), wish('2026-12-06'), now);
		expect(judged).toMatchObject({
			allowed: true,
			version: 1,
			edits: [{ path: ['moves'], to: { 'flukes/dose/2': '2026-12-06' } }]
		});
	});

	test('goes to another hour of its day, by the clock of the run', async () => {
		const judged = await judgeMove(await stored(), wish('2026-12-05T13:30'), now);
		expect(judged).toMatchObject({
			allowed: true,
			edits: [{ path: ['moves'], to: { 'flukes/dose/2': '2026-12-05T13:30' } }]
		});
	});

	// a week is the rule at this temperature; three weeks let worms lay again, which the checks stop
	test.each([
		[wish('2026-12-26'), /./],
		[wish('2026-11-20'), /stays on 2026-12-05: 2026-11-20 is over/],
		// one job of a service that cannot follow holds the others
		[wish('2026-11-29', 'flukes/dose/1', 'flukes/acclimate/1'), /the day the fish come/],
		[wish('2026-12-05'), /due on 2026-12-05 anyway/],
		[wish('2026-12-05T08:00'), /due on 2026-12-05 at 08:00 anyway/],
		[wish('2026-12-05T23:30'), /23:30 is night/],
		[wish('2026-11-28T20:00', 'flukes/dose/1'), /comes 6.5 days after the one before/],
		[wish('2026-12-06', 'flukes/dose/9'), /this task no more/],
		[{ ...wish('2026-12-06'), run: 'none' }, /run is not there/]
	])('%j is refused', async (asked, sentence) => {
		const judged = await judgeMove(await stored(), asked, now);
		expect(judged).toMatchObject({ allowed: false, sentence: expect.stringMatching(sentence) });
	});

	test('waits until it is decided, once; a newer wish takes its place', async () => {
		const store = await stored();
		const account = await addAccount(store, {
			server: 'http://127.0.0.1:1/',
			user: 'keeper',
			password: 'salt',
			collection: 'http://127.0.0.1:1/c/',
			name: 'C',
			kind: 'VTODO',
			scope: {},
			every: 15
		});
		const base = { account, run: 'harbour', task: 'flukes/dose/2', title: 'Dose', was: '2026-12-05' };
		await propose(store, { ...base, day: '2026-12-04' });
		await propose(store, { ...base, day: '2026-12-06' });
		const [open, ...others] = await openProposals(store);
		expect(others).toEqual([]);
		expect(open).toMatchObject({ day: '2026-12-06', refusal: null });
		expect(await decide(store, open?.id ?? '', true, 'ada')).toEqual({ kind: 'done' });
		expect(await decide(store, open?.id ?? '', true, 'ada')).toEqual({ kind: 'none' });
		const run = await getRun(store, 'harbour');
		const made = plan(readRun(run?.document ?? {}, { today: null }), now);
		expect(made.tasks.find(({ id }) => id === 'flukes/dose/2')?.date).toBe('2026-12-06');
	});
});

test('a calendar file remembers the one before: moved outranks, gone is cancelled, left out keeps its standing', async () => {
	const store = await stored();
	const ask = async (choices = {}) =>
		(await calendarFile(store, { run: 'harbour', choices, origin: 'http://127.0.0.1:4173' }))?.text ?? '';
	const first = await ask();
	expect(first).toContain('SEQUENCE:0');
	expect(await ask()).toBe(first);
	await ask({ kinds: ['test'] });
	expect(await ask()).toBe(first);
	const save = (id: string, base: number, to: unknown, was: unknown) =>
		saveEdits(store, 'harbour', { id, base, edits: [{ path: ['phases', 0, 'lasts'], to, was }], who: 'ada' });
	await save('a', 1, '1 dose', '2 doses');
	expect(await ask()).toMatch(/UID:flukes\/dose\/2@harbour\r[^]*STATUS:CANCELLED/);
	await save('b', 2, '2 doses', '1 dose');
	const back = await ask();
	expect(back).not.toContain('STATUS:CANCELLED');
	expect(back).toMatch(/UID:flukes\/dose\/2@harbour\r\n(?:(?!UID)[^])*SEQUENCE:2/);
	expect(await calendarFile(store, { run: 'none', choices: {}, origin: '' })).toBeNull();
});
