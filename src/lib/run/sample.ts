/** A document that uses every key and every kind of log entry, for the tests of this room. Invented throughout. */
export const fullDocument = {
	format: 'lazaret-plan/1',
	id: 'winter-tangs',
	name: 'Winter tangs',
	timeZone: 'Europe/Lisbon',
	service: ['08:00', '20:00'],
	tank: {
		name: 'Long tank',
		net: '30 gal',
		gross: '128 L',
		temperature: '79 F',
		salinity: '1.025 (25C/25C)',
		pH: 8.1,
		filterClears: 'none',
		ammonia: '0 mg/L',
		nitrate: '5 mg/L',
		evaporates: '1.5 L/d',
		aeration: 'coarse',
		carbon: false,
		resin: false,
		uv: false,
		skimmer: false,
		ozone: false,
		substrate: 'none',
		holds: ['fish'],
		lights: 'dim',
		heater: { holdsWithin: '1 C' },
		conditioner: 'none',
		minutes: 30,
		lid: true
	},
	spare: { name: 'Second tank', net: '90 L' },
	source: {
		name: 'mixed salt water',
		ammonia: '0 mg/L',
		nitrate: '0 mg/L',
		salinity: '34 ppt',
		temperature: '26 C',
		pH: 8.2,
		volume: '200 L',
		mixed: true
	},
	limits: { nh3: '0.02 mg/L', nitrate: '10 mg/L' },
	lots: [
		{
			id: 'a',
			what: 'yellow-tailed tang',
			group: 'tang',
			count: 3,
			mass: '120 g',
			feed: '2.4 g/d',
			protein: 0.1,
			tan: '60 mg/d',
			arrived: '2026-11-27',
			signs: ['white-spots']
		}
	],
	medicines: [
		{
			id: 'cu',
			active: 'copper-ionic',
			strength: '2 mg/mL',
			measure: '0.1 mL',
			level: '0.15-0.20 mg/L',
			ceiling: '0.25 mg/L',
			halfLife: 'none',
			course: '28 d'
		},
		{
			id: 'pz',
			active: 'praziquantel',
			strength: '1 g/g',
			measure: '10 mg',
			halfLife: '3 d',
			gap: '7 d',
			contact: '30 h'
		},
		{ id: 'fo', active: 'formalin', strength: '1 mL/mL', measure: '0.5 mL', prescribed: true }
	],
	phases: [
		{
			id: 'settle',
			kind: 'settle',
			starts: 'on 2026-11-27',
			lasts: '3 d',
			change: 'auto',
			test: 'NH3 daily'
		},
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle + 1 d',
			lasts: '28 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 3 d',
			change: 'auto',
			test: 'Cu daily, NH3 Mon, Thu',
			target: 'cryptocaryon',
			carbon: false,
			resin: false
		},
		{
			id: 'bath',
			kind: 'dip',
			medicine: 'fo',
			starts: 'with settle',
			lasts: '45 min',
			level: '150 uL/L',
			bath: '20 L'
		},
		{
			id: 'fresher',
			kind: 'low-salinity',
			starts: 'after copper',
			lasts: '28 d',
			level: '12-14 ppt',
			rise: '2 ppt/d'
		},
		{ id: 'release', kind: 'release', starts: 'after fresher' }
	],
	away: ['2026-12-11'],
	hands: { '2026-12-11': 'a neighbour feeds' },
	moves: { 'copper/change/5': '2026-12-05' },
	log: [
		{
			id: '1',
			at: '2026-11-30T08:12:00Z',
			kind: 'done',
			task: 'copper/dose/1',
			amount: '5.0 mL',
			by: 'Ana',
			note: 'slowly'
		},
		{ id: '2', at: '2026-12-02T09:00:00Z', kind: 'missed', task: 'copper/test/3', reason: 'away' },
		{
			id: '3',
			at: '2026-12-03T08:05:00Z',
			kind: 'reading',
			task: 'copper/test/4',
			what: 'Cu',
			value: '0.12 mg/L',
			as: 'ionic'
		},
		{
			id: '4',
			at: '2026-12-03T08:06:00Z',
			kind: 'observation',
			lot: 'a',
			signs: ['thin'],
			appetite: 'picked',
			breathsPerMinute: 90,
			photo: 'a1b2c3',
			bag: {
				temperature: '24 C',
				salinity: '27 ppt',
				pH: 6.8,
				ammonia: '8 mg/L',
				as: 'tan',
				count: 3,
				mass: '120 g'
			}
		},
		{ id: '5', at: '2026-12-04T08:00:00Z', kind: 'loss', lot: 'a', count: 1 },
		{
			id: '6',
			at: '2026-12-05T17:00:00+01:00',
			kind: 'fish',
			lot: { id: 'b', what: 'wrasse', group: 'wrasse', count: 1, feed: '0.3 g/d', protein: 0.09 },
			restart: false
		},
		{ id: '7', at: '2026-12-05T18:00:00Z', kind: 'change', litres: '30 L', source: 'source' },
		{ id: '8', at: '2026-12-05T18:10:00Z', kind: 'dose', medicine: 'cu', amount: '2.0 mL' },
		{ id: '9', at: '2026-12-06T08:00:00Z', kind: 'equipment', what: 'carbon', on: true },
		{ id: '10', at: '2026-12-06T08:01:00Z', kind: 'topoff', litres: '1 L' },
		{
			id: '11',
			at: '2026-12-06T08:30:00Z',
			kind: 'correct',
			entry: '3',
			as: { kind: 'reading', what: 'Cu', value: '0.17 mg/L' }
		},
		{ id: '12', at: '2026-12-13T08:00:00Z', kind: 'choice', task: 'copper/dose/2', taken: 'now' },
		{ id: '13', at: '2026-12-13T08:01:00Z', kind: 'correct', entry: '7', void: true },
		{ id: '14', at: '2026-12-14T08:00:00Z', kind: 'fish', lot: 'b', count: -1 }
	]
};

/** A copy with one place set to another value; `undefined` takes the key away. Rows are named by number. */
export function withPlace(document: object, path: string, value: unknown): Record<string, unknown> {
	const copy = structuredClone(document) as Record<string, unknown>;
	const keys = path.split('.');
	const last = keys.pop() ?? '';
	const node = keys.reduce<Record<string, unknown>>((at, key) => at[key] as Record<string, unknown>, copy);
	if (value === undefined) delete node[last];
	else node[last] = value;
	return copy;
}
