/** The keeper's zone. */ export const zone = 'America/Chicago';

/** An invented run from that day on: three days to settle, ten of copper, two doses against flukes within it. */
export const harbourFrom = (day: string) => ({
	format: 'lazaret-plan/1',
	name: 'Harbour tangs',
	timeZone: zone,
	service: '08:00',
	tank: {
		name: 'Q7',
		net: '112 L',
		temperature: '26 C',
		salinity: '34 ppt',
		pH: 8.1,
		filterClears: '40 L/d',
		aeration: 'coarse',
		substrate: 'none'
	},
	source: { name: 'mixed', ammonia: '0 mg/L', nitrate: '5 mg/L', salinity: '34 ppt' },
	lots: [{ id: 'a', what: 'tangs', group: 'tang', count: 2, mass: '60 g', feed: '1 g/d', arrived: day }],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
	],
	phases: [
		{ id: 'settle', kind: 'settle', starts: `on ${day}`, lasts: '3 d', test: 'NH3 daily' },
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '10 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 2 d',
			test: 'Cu daily'
		},
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with copper + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		}
	]
});
