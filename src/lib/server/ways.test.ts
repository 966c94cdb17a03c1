import { describe, expect, test } from 'vitest';
import { plan, type BriefSlip } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { history, saveEdits } from './edits.ts';
import { engines, freshStore } from './fresh-store.ts';
import { appendLog, planFileOf, readLog } from './log.ts';
import { createRun, getRun } from './runs.ts';
import { briefSlipsOf, slipsOf } from './slips.ts';
import type { Store } from './store.ts';
import { takeWay, type TakenWay } from './ways.ts';

/*
 * The clock of the store begins at midnight of 27 November 2026. A pair of praziquantel doses seven days apart in 100 L,
 * a series of dips three days apart: of each the first was given, the second forgotten on the 26th. All invented.
 */
const frame = {
	format: 'lazaret-plan/1',
	timeZone: 'UTC',
	service: '08:00',
	tank: { net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	medicines: [
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
		{ id: 'fw', active: 'fresh-water' }
	]
};
const behind = (id: string) => [
	{ id: 'watch', kind: 'observe', starts: `after ${id}`, lasts: '14 d' },
	{ id: 'release', kind: 'release', starts: 'after watch' }
];
const pair = {
	...frame,
	name: 'A pair',
	phases: [
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'on 2026-11-19',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		...behind('flukes')
	]
};
const dips = {
	...frame,
	name: 'Dips',
	moves: { 'rinse/dip/3': '2026-11-30' },
	phases: [
		{
			id: 'rinse',
			kind: 'dip',
			medicine: 'fw',
			starts: 'on 2026-11-23',
			lasts: '3 doses',
			repeat: 'every 3 d',
			bath: '10 L'
		},
		...behind('rinse')
	]
};
const now = '2026-11-27T00:00:00Z';
const keeper = { who: 'ada', mayChange: true };

async function started(store: Store, document: object, done: string): Promise<BriefSlip> {
	await createRun(store, { id: 'r', document, who: 'ada' });
	const at = `${done.startsWith('rinse') ? '2026-11-23' : '2026-11-19'}T08:05:00Z`;
	await appendLog(store, 'r', [{ id: 'd', at, kind: 'done', task: done }], 'ada');
	const found = await briefSlipsOf(store, 'r', now);
	const [slip] = found?.slips ?? [];
	if (!slip) throw new Error('the second one is open');
	return slip;
}

function takenOf(slip: BriefSlip, over: Partial<TakenWay> = {}): TakenWay {
	const way = slip.ways.find(({ proposed }) => proposed);
	if (!way) throw new Error('one way is proposed');
	const { taken, release, danger, edits } = way;
	const shown = JSON.parse(JSON.stringify({ release, danger, edits })) as TakenWay['shown'];
	return { id: 'w', at: '2026-11-27T00:01:00Z', task: slip.id, taken, shown, ...over };
}

describe.each(engines)('a way that is taken, on %s', (engine) => {
	test('is written once, and does what was shown', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, pair, 'flukes/dose/1');
		// given before the service of the 27th, with which fourteen days of watch begin: release on 11 December
		expect(slip.ways[0]).toMatchObject({ taken: 'now', proposed: true, release: '2026-12-11' });
		const asked = takenOf(slip);
		expect(await takeWay(store, 'r', asked, keeper)).toEqual({ kind: 'taken', added: 1 });
		expect(await takeWay(store, 'r', asked, keeper)).toEqual({ kind: 'taken', added: 0 });
		const log = await readLog(store, 'r');
		expect(log.filter(({ kind }) => kind === 'choice')).toEqual([
			{ id: 'w', at: asked.at, kind: 'choice', task: 'flukes/dose/2', taken: 'now' }
		]);
		const whole = await planFileOf(store, 'r');
		expect(plan(readRun(whole, { today: null }), asked.at).release).toBe('2026-12-11');
	});

	test('is written after what the same device logged before it', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, pair, 'flukes/dose/1');
		const entry = { id: 'o', at: '2026-11-27T00:00:30Z', kind: 'observation', signs: ['none'] };
		await appendLog(store, 'r', [entry], 'ada');
		expect(await takeWay(store, 'r', takenOf(slip), keeper)).toMatchObject({ kind: 'taken', added: 1 });
	});

	test('is not written once somebody changed the run so that it leads elsewhere, and says so', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, pair, 'flukes/dose/1');
		const edits = [{ path: ['phases', 1, 'lasts'], was: '14 d', to: '20 d' }];
		await saveEdits(store, 'r', { id: 'e', base: 1, edits, who: 'bo' });
		const took = await takeWay(store, 'r', takenOf(slip), keeper);
		expect(took).toEqual({
			kind: 'moved-on',
			sentence: 'It would now lead to release on 2026-12-17; shown was release on 2026-12-11.'
		});
		expect((await readLog(store, 'r')).map(({ id }) => id)).toEqual(['d']);
	});

	test('is not written where somebody has given the dose since, were it after the touch', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, pair, 'flukes/dose/1');
		const given = { id: 'g', at: '2026-11-27T00:05:00Z', kind: 'done', task: 'flukes/dose/2' };
		await appendLog(store, 'r', [given], 'bo');
		const took = await takeWay(store, 'r', takenOf(slip), keeper);
		expect(took).toMatchObject({
			kind: 'moved-on',
			sentence: expect.stringContaining('has its answer') as string
		});
		expect((await readLog(store, 'r')).map(({ id }) => id)).toEqual(['d', 'g']);
	});

	test('writes the days it moves together with its entry, for a keeper only', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, dips, 'rinse/dip/1');
		const asked = takenOf(slip);
		expect(asked).toMatchObject({ taken: 'now-shift', shown: { edits: [{ to: '2026-12-01' }] } });
		const helper = { who: 'cy', mayChange: false };
		expect(await takeWay(store, 'r', asked, helper)).toEqual({ kind: 'keeper-only' });
		expect((await getRun(store, 'r'))?.version).toBe(1);
		expect(await takeWay(store, 'r', asked, keeper)).toMatchObject({ kind: 'taken' });
		expect(await takeWay(store, 'r', asked, keeper)).toMatchObject({ kind: 'taken', added: 0 });
		expect((await getRun(store, 'r'))?.document.moves).toEqual({ 'rinse/dip/3': '2026-12-01' });
		expect((await history(store, 'r')).map(({ what, who }) => [what, who])).toEqual([
			['edit', 'ada'],
			['create', 'ada']
		]);
		// a day that is another by now is not moved as it was shown
		const other = await freshStore(engine);
		const again = takenOf(await started(other, dips, 'rinse/dip/1'));
		const edits = [{ path: ['moves', 'rinse/dip/3'], was: '2026-11-30', to: '2026-12-02' }];
		await saveEdits(other, 'r', { id: 'e', base: 1, edits, who: 'bo' });
		expect(await takeWay(other, 'r', again, keeper)).toMatchObject({ kind: 'moved-on' });
		expect((await getRun(other, 'r'))?.document.moves).toEqual({ 'rinse/dip/3': '2026-12-02' });
	});

	test('is refused from a device whose clock runs ahead, and where there is no such run', async () => {
		const store = await freshStore(engine);
		const slip = await started(store, pair, 'flukes/dose/1');
		const ahead = takenOf(slip, { at: '2026-11-27T01:00:00Z' });
		expect(await takeWay(store, 'r', ahead, keeper)).toMatchObject({ kind: 'refused' });
		expect(await takeWay(store, 'x', takenOf(slip), keeper)).toEqual({ kind: 'no-run' });
	});

	test('the ways are worked out once for a minute, and again when something was logged', async () => {
		const store = await freshStore(engine);
		await started(store, pair, 'flukes/dose/1');
		const first = await slipsOf(store, 'r', now);
		expect(await slipsOf(store, 'r', '2026-11-27T00:00:40Z')).toBe(first);
		const entry = { id: 'm', at: '2026-11-26T20:00:00Z', kind: 'missed', task: 'flukes/dose/2' };
		await appendLog(store, 'r', [entry], 'ada');
		const second = await slipsOf(store, 'r', now);
		expect([first?.slips[0]?.open, second?.slips[0]?.open]).toEqual([true, false]);
	});
});
