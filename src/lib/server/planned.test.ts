import { expect, test } from 'vitest';
import { saveEdits } from './edits.ts';
import { engines, freshStore } from './fresh-store.ts';
import { appendLog } from './log.ts';
import { plannedRuns } from './planned.ts';
import { createRun, setDeleted } from './index.ts';

const document = (timeZone: string) => ({
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone,
	tank: { net: '100 L' },
	phases: [{ id: 'a', kind: 'observe', starts: 'on 2026-11-26', lasts: '3 d' }]
});
const now = '2026-11-26T20:00:10Z';

test.each(engines)(
	'a plan in %s is made once for a minute, and again only for the run that changed',
	async (engine) => {
		const store = await freshStore(engine);
		for (const id of ['a', 'b']) await createRun(store, { id, document: document('UTC'), who: 'ada' });
		const [a, b] = await plannedRuns(store, now);
		expect(await plannedRuns(store, now)).toEqual([a, b]);
		expect((await plannedRuns(store, now))[0]?.plan).toBe(a?.plan);

		const edits = [{ path: ['phases', 0, 'lasts'], to: '5 d', was: '3 d' }];
		await saveEdits(store, 'a', { id: 'e', base: 1, edits, who: 'ada' });
		const changed = await plannedRuns(store, now);
		expect(changed[0]?.plan.phases[0]?.to).not.toBe(a?.plan.phases[0]?.to);
		expect(changed[1]?.plan).toBe(b?.plan);

		const entry = { id: 'l', at: '2026-11-26T12:00:00Z', kind: 'topoff', litres: '1 L' };
		await appendLog(store, 'b', [entry], 'ada');
		const logged = await plannedRuns(store, now);
		expect(logged[0]?.plan).toBe(changed[0]?.plan);
		expect(logged[1]?.run.log).toHaveLength(1);

		expect((await plannedRuns(store, '2026-11-26T20:01:10Z'))[0]?.plan).not.toBe(changed[0]?.plan);
		await setDeleted(store, 'a', true, { id: 'd', who: 'ada' });
		expect((await plannedRuns(store, now)).map(({ stored }) => stored.id)).toEqual(['b']);
	}
);

test('each of twenty runs is planned anew once in a minute, and never many of them in one second', async () => {
	const store = await freshStore('sqlite');
	for (let n = 0; n < 20; n++) await createRun(store, { id: `t${n}`, document: document('UTC'), who: 'ada' });
	let before = (await plannedRuns(store, now)).map(({ plan }) => plan);
	const anew: number[] = [];
	for (let second = 1; second <= 60; second++) {
		const at = new Date(Date.parse(now) + second * 1000).toISOString();
		const plans = (await plannedRuns(store, at)).map(({ plan }) => plan);
		anew.push(plans.filter((plan, n) => plan !== before[n]).length);
		before = plans;
	}
	expect(anew.reduce((sum, one) => sum + one, 0)).toBe(20);
	expect(Math.max(...anew)).toBeLessThanOrEqual(4);
});

test('today is the day in the zone of the run, not in UTC', async () => {
	const store = await freshStore('sqlite');
	for (const [id, zone] of [
		['east', 'Pacific/Auckland'],
		['west', 'Pacific/Honolulu'],
		['nowhere', 'No/Zone']
	] as const)
		await createRun(store, { id, document: document(zone), who: 'ada' });
	const days = (await plannedRuns(store, now)).map(({ stored, today }) => [stored.id, today]);
	// 20:00 UTC is 09:00 of the 27th in Auckland (UTC+13 in November) and 10:00 of the 26th in Honolulu (UTC-10)
	expect(Object.fromEntries(days)).toEqual({ east: '2026-11-27', west: '2026-11-26', nowhere: '2026-11-26' });
});
