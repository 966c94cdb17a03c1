import { plan } from '../planning.ts';
import type { Plan, Task } from '../plan.ts';
import { runOf } from '../example.ts';

/** Small runs for the tests of slips: one way of using a medicine each, in UTC, looked after at 08:00. All invented. */
export type Entry = { id: string; at: string; kind: string } & Record<string, unknown>;
export type Scene = Record<string, unknown> & { log: Entry[] };

const tank = {
	name: 'Q1',
	net: '100 L',
	temperature: '26 C',
	salinity: '34 ppt',
	pH: 8.1,
	filterClears: '100 L/d',
	aeration: 'coarse',
	substrate: 'none',
	lights: 'dim'
};

const frame = {
	format: 'lazaret-plan/1',
	name: 'A slip',
	timeZone: 'UTC',
	service: '08:00',
	tank,
	source: { name: 'reservoir', ammonia: '0 mg/L', nitrate: '0 mg/L', salinity: '34 ppt' },
	lots: [
		{
			id: 'a',
			what: 'banded gobies',
			group: 'goby',
			count: 2,
			mass: '10 g',
			feed: '0.2 g/d',
			protein: 0.1,
			arrived: '2026-12-01'
		}
	],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
		{ id: 'ka', active: 'kanamycin', strength: '1 g/g', measure: '10 mg', prescribed: true },
		{ id: 'fw', active: 'fresh-water' }
	],
	log: [] as Entry[]
};

const after = (id: string) => [
	{ id: 'watch', kind: 'observe', starts: `after ${id}`, lasts: '14 d', test: 'NH3 every 7 d' },
	{ id: 'release', kind: 'release', starts: 'after watch' }
];

/** A run whose course begins on 1 December 2026, with a watch and a release behind it. */
export const sceneOf = (row: Record<string, unknown> & { id: string }): Scene => ({
	...structuredClone(frame),
	phases: [{ starts: 'on 2026-12-01', ...row }, ...after(row.id)]
});

export const scenes = {
	hold: () =>
		sceneOf({
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			lasts: '14 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 2 d',
			change: '25% every 3 d',
			test: 'Cu daily'
		}),
	pulse: () =>
		sceneOf({
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		}),
	daily: () =>
		sceneOf({
			id: 'bath',
			kind: 'daily',
			medicine: 'ka',
			lasts: '10 d',
			level: '50 mg/L',
			change: '25% daily'
		}),
	dip: () =>
		sceneOf({
			id: 'rinse',
			kind: 'dip',
			medicine: 'fw',
			lasts: '3 doses',
			repeat: 'every 3 d',
			bath: '10 L'
		}),
	transfer: () => ({
		...sceneOf({ id: 'move', kind: 'transfer', lasts: '4 moves' }),
		spare: { ...tank, name: 'Q2' }
	})
};

export type SceneName = keyof typeof scenes;

/** An instant of December 2026. */
export const dec = (day: number, time = '08:00') =>
	`${new Date(Date.UTC(2026, 11, day)).toISOString().slice(0, 10)}T${time}:00Z`;

export const planScene = (scene: object, now: string): Plan => plan(runOf(scene), now);

/** Every job before an instant logged as done a few minutes after its time, but for those named. */
export function doneUntil(scene: Scene, until: string, except: readonly string[] = []): Entry[] {
	const { tasks } = planScene({ ...scene, log: [] }, '2026-11-30T00:00:00Z');
	return tasks
		.filter(({ id, at }) => at < until && !except.includes(id))
		.map((task, i) => doneEntry(task, `d${i}`));
}

export const doneEntry = ({ id, at }: Pick<Task, 'id' | 'at'>, entry: string): Entry => ({
	id: entry,
	at: at.replace(':00Z', ':05Z'),
	kind: 'done',
	task: id
});

export const withLog = (scene: Scene, log: Entry[]): Scene => ({ ...scene, log });
export const taskIn = ({ tasks }: Plan, id: string) => tasks.find((task) => task.id === id);
export const stamps = ({ tasks }: Plan, kind: string) =>
	tasks
		.filter((task) => task.kind === kind)
		.map(({ id, date, time, state }) => `${id} ${date} ${time} ${state}`);
