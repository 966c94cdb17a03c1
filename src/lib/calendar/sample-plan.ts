import type { Plan, Task } from '../planner/index.ts';
import { dayNumber, dayText, type Run } from '../run/index.ts';

/** An invented run for tests of the calendar: only what an export reads is filled in with care. */
export const sampleRun = (id = 'harbour', name = 'Harbour wrasses'): Run => ({
	id,
	name,
	timeZone: 'America/Chicago',
	services: ['08:00', '20:00'],
	tank: {
		name: 'Q7',
		netL: 96,
		grossL: null,
		temperatureC: 26,
		salinityPpt: 34,
		pH: 8.1,
		filterClearsLPerDay: 0,
		ammoniaMgNPerL: null,
		nitrateMgPerL: null,
		evaporatesLPerDay: 0,
		aeration: 'coarse',
		carbon: false,
		resin: false,
		uv: false,
		skimmer: false,
		ozone: false,
		substrate: 'none',
		holds: ['fish'],
		lights: 'on',
		heaterWithinC: 1,
		conditioner: 'none',
		minutes: null,
		lid: true
	},
	spare: null,
	source: {
		name: 'mixed water',
		ammoniaMgNPerL: 0,
		nitrateMgPerL: 0,
		salinityPpt: 34,
		temperatureC: null,
		pH: null,
		volumeL: null,
		mixed: false
	},
	limits: { nh3MgNPerL: 0.02, nitrateMgPerL: 10 },
	lots: [],
	medicines: [],
	phases: [],
	hands: {},
	away: [],
	moves: {},
	log: [],
	problems: []
});

/** A task with its date and the UTC instant of 08:00 in Chicago in winter, changed as wanted. */
export const sampleTask = (id: string, date: string, more: Partial<Task> = {}): Task => {
	const [phase = '', kind = ''] = id.split('/');
	return {
		id,
		phase,
		kind: kind as Task['kind'],
		date,
		time: '08:00',
		at: `${date}T14:00:00Z`,
		text: `Job ${id}`,
		amount: null,
		state: 'planned',
		because: 'It is due.',
		cautions: [],
		...more
	};
};

/** Three days of copper: test and change each day, a dose on the first two. */
export function sampleTasks(): Task[] {
	return [0, 1, 2].flatMap((n) => {
		const date = dayText(dayNumber('2027-02-01') + n);
		const jobs = [
			sampleTask(`copper/test/${n + 1}`, date, { text: 'Test Cu', what: ['Cu'] }),
			sampleTask(`copper/change/${n + 1}`, date, {
				text: 'Change 24 L',
				amount: { value: 24, unit: 'L' },
				fraction: 0.25,
				because: 'NH3-N would reach 0.021 mg/L; the limit is 0.02.'
			})
		];
		if (n < 2) jobs.push(sampleDose(n + 1, date));
		return jobs;
	});
}

const sampleDose = (n: number, date: string): Task =>
	sampleTask(`copper/dose/${n}`, date, {
		text: 'Ionic copper 4.3 mL',
		amount: { value: 4.3, unit: 'mL' },
		medicine: 'cu',
		raises: { from: 0, to: 0.0895833, unit: 'mg/L' },
		because: 'Rises in two steps, 0.09 mg/L of 0.18.',
		cautions: ['Copper kills invertebrates; keep its tools apart.']
	});

export const samplePlan = (tasks: Task[] = sampleTasks()): Plan => ({
	format: 'lazaret-result/1',
	begins: '2027-02-01',
	release: '2027-03-10',
	phases: [
		{ id: 'copper', from: '2027-02-01', to: '2027-02-28', creditedDays: 26, tasks: tasks.length },
		{ id: 'watch', from: '2027-03-01', to: null, tasks: 0 }
	],
	tasks,
	levels: [],
	findings: [],
	supplies: { waterL: 72, medicines: [{ id: 'cu', value: 8.6, unit: 'mL' }] },
	problems: []
});
