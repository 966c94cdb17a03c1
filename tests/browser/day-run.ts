import type { APIRequestContext } from '@playwright/test';
import { expect } from './app.ts';

/** Entries as a test writes them: days from today, `HH:MM` of that day in the run's zone, kind and rest. */
export type Written = [day: number, time: string, kind: string, rest: Record<string, unknown>];

/** A zone in which it is now between ten and eleven in the morning, so that no test sees a midnight. */
function morningZone(nowMs: number): { zone: string; hours: number } {
	const wished = 10 - new Date(nowMs).getUTCHours();
	const hours = wished < -12 ? wished + 24 : wished;
	return { zone: hours === 0 ? 'Etc/GMT' : `Etc/GMT${hours > 0 ? '-' : '+'}${Math.abs(hours)}`, hours };
}

/**
 * The keepers' worked example as a run: 112 L at 26 °C, 34 ppt and pH 8.1, copper held at 0.15 to 0.20 mg/L, aim 0.18,
 * from three days ago; bottle 2 mg/mL, syringe 0.1 mL. Last night some water was changed, which leaves a forecast of 0.17.
 */
export async function copperRun(
	request: APIRequestContext,
	id: string,
	over: { tank?: object; log?: (log: Written[]) => Written[] } = {}
): Promise<void> {
	const { zone, hours } = morningZone(Date.now());
	const day = (n: number) =>
		new Date(Date.now() + hours * 3_600_000 + n * 86_400_000).toISOString().slice(0, 10);
	const moment = (n: number, time: string) =>
		new Date(Date.parse(`${day(n)}T${time}:00Z`) - hours * 3_600_000).toISOString();
	const document = {
		format: 'lazaret-plan/1',
		name: `Run ${id}`,
		timeZone: zone,
		service: '08:00',
		tank: {
			name: id.toUpperCase(),
			net: '112 L',
			temperature: '26 C',
			salinity: '34 ppt',
			pH: 8.1,
			aeration: 'coarse',
			...over.tank
		},
		source: { ammonia: '0 mg/L', nitrate: '2 mg/L', salinity: '34 ppt' },
		lots: [
			{
				id: 'a',
				what: 'cardinalfish',
				group: 'cardinalfish',
				count: 5,
				feed: '1 g/d',
				protein: 0.09,
				arrived: day(-4)
			}
		],
		medicines: [
			{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL', halfLife: 'none' }
		],
		phases: [
			{ id: 'settle', kind: 'settle', starts: `on ${day(-4)}`, lasts: '1 d' },
			{
				id: 'copper',
				kind: 'hold',
				medicine: 'cu',
				starts: 'after settle',
				lasts: '28 d',
				level: '0.15-0.20 mg/L',
				aim: '0.18 mg/L',
				repeat: 'ramp 2 d',
				change: '30% every 3 d',
				test: 'Cu daily, NH3 daily'
			},
			{ id: 'watch', kind: 'observe', starts: 'after copper', lasts: '14 d' }
		]
	};
	const made = await request.post('/api/runs', { data: { id, document } });
	expect(made.ok(), await made.text()).toBe(true);
	const log = (over.log ?? ((own) => own))(heldSoFar).map(([n, time, kind, rest], at) => ({
		id: `${id}-${at}`,
		at: moment(n, time),
		kind,
		...rest
	}));
	const logged = await request.post(`/api/runs/${id}/log`, { data: { entries: log } });
	expect(logged.ok(), await logged.text()).toBe(true);
}

const read = (n: number, value: string, what = 'Cu') => ({ task: `copper/test/${n}`, what, value });

/** Everything answered until yesterday. */
const heldSoFar: Written[] = [
	[-4, '08:05', 'done', { task: 'settle/acclimate/1' }],
	[-4, '08:10', 'observation', { task: 'settle/observe/1', signs: ['none'] }],
	[-3, '08:05', 'reading', read(1, '0 mg/L')],
	[-3, '08:10', 'done', { task: 'copper/dose/1' }],
	[-2, '08:05', 'reading', read(2, '0.09 mg/L')],
	[-2, '08:10', 'done', { task: 'copper/dose/2' }],
	[-1, '08:05', 'reading', read(3, '0.18 mg/L')],
	// 0.18 x (1 - 0.055) = 0.17
	[-1, '20:00', 'change', { fraction: '5.5%' }]
];

/** What the store holds of a run, without what {@link copperRun} wrote. */
export async function newEntries(
	request: APIRequestContext,
	id: string
): Promise<({ id: string; kind: string } & Record<string, unknown>)[]> {
	const { log } = (await (await request.get(`/api/runs/${id}/log`)).json()) as {
		log: { id: string; kind: string }[];
	};
	return log.filter((entry) => !entry.id.startsWith(`${id}-`));
}
