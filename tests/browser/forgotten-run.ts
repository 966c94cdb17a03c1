import type { APIRequestContext } from '@playwright/test';
import { expect } from './app.ts';

/*
 * Runs that began some days ago in UTC and are looked after at midnight, so that the hour the test runs at changes
 * nothing. All invented.
 */
export const day = (n: number) => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10);
/** As the screens write it: with the year where it is another than this one. */
export const short = (n: number) =>
	new Date(`${day(n)}T12:00:00Z`).toLocaleDateString('en-GB', {
		day: 'numeric',
		month: 'short',
		...(day(n).slice(0, 4) === day(0).slice(0, 4) ? {} : { year: 'numeric' }),
		timeZone: 'UTC'
	});

export const frame = {
	format: 'lazaret-plan/1',
	name: 'A forgotten job',
	timeZone: 'UTC',
	service: '00:00',
	tank: {
		name: 'Q1',
		net: '100 L',
		temperature: '26 C',
		salinity: '34 ppt',
		pH: 8.1,
		aeration: 'coarse',
		filterClears: '100 L/d'
	},
	source: { name: 'reservoir', ammonia: '0 mg/L', nitrate: '0 mg/L', salinity: '34 ppt' },
	lots: [],
	medicines: [
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
		{ id: 'fw', active: 'fresh-water' }
	]
};
export const behind = (id: string) => [
	{ id: 'watch', kind: 'observe', starts: `after ${id}`, lasts: '14 d' },
	{ id: 'release', kind: 'release', starts: 'after watch' }
];

/** A pair of doses seven days apart, the first given `days` ago, the second not answered for. */
export async function pair(request: APIRequestContext, days: number): Promise<void> {
	const flukes = {
		id: 'flukes',
		kind: 'pulse',
		medicine: 'pz',
		starts: `on ${day(-days)}`,
		lasts: '2 doses',
		level: '2.5 mg/L',
		repeat: 'every 7 d'
	};
	await make(
		request,
		{ ...frame, phases: [flukes, ...behind('flukes')] },
		{ at: `${day(-days)}T00:05:00Z`, task: 'flukes/dose/1' }
	);
}

export async function make(
	request: APIRequestContext,
	document: object,
	done: { at: string; task: string }
): Promise<void> {
	expect((await request.post('/api/runs', { data: { id: 'r1', document } })).status()).toBe(201);
	const entries = [{ id: 'd1', kind: 'done', ...done }];
	expect((await request.post('/api/runs/r1/log', { data: { entries } })).status()).toBe(200);
}

export const logOf = async (request: APIRequestContext) =>
	((await (await request.get('/api/runs/r1/log')).json()) as { log: Record<string, unknown>[] }).log;
