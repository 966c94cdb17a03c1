import type { Mark } from './row.ts';
import { unsourced } from './sourced.ts';

export interface EmergencyCard {
	id: 'power' | 'heater' | 'fouling' | 'gasping' | 'overdose';
	title: string;
	/** what is seen */
	when: string;
	/** in the order they are done */
	steps: readonly string[];
	mark: Mark;
	source: string;
}

const keepers = { mark: 'CP', source: unsourced.CP } as const;

/** One card per event, the first step first. */
export const emergencies: readonly EmergencyCard[] = [
	{
		id: 'power',
		title: 'Power failure',
		when: 'Pumps and heater are still.',
		steps: [
			'Air first: a battery air pump in every tank, the fullest tank first.',
			'Do not feed.',
			'Wrap the tanks against the cold; do not open lids more than needed.',
			'After some hours a still filter is doubtful: rinse it in tank water before it runs again, and test ammonia.',
			'Give no dose until pumps and air run.',
			'When power is back, warm by at most 1 °C per hour.'
		],
		...keepers
	},
	{
		id: 'heater',
		title: 'Heater failure',
		when: 'The water is too cold or too warm.',
		steps: [
			'Unplug the heater before a hand goes in.',
			'Too warm: lights off, more air, lid open under watch; warm water holds less oxygen and formalin bites harder.',
			'Bring it back by at most 1 °C per hour.',
			'Do not feed until it holds.',
			'Cold days slow the parasite: the counted days of the course grow longer.'
		],
		...keepers
	},
	{
		id: 'fouling',
		title: 'Fouled water',
		when: 'A dead fish, rotting food, a smell, cloudy water.',
		steps: [
			'Air first.',
			'Take out what rots. A dead fish: cold, not frozen, to be examined the same day.',
			'Test ammonia and pH.',
			'Change water, matched in temperature, salinity and pH, until NH3-N is under 0.02 mg/L.',
			'Give the medicine back for the new water only.',
			'No food for a day. Call a veterinarian at a second death within 48 hours.'
		],
		...keepers
	},
	{
		id: 'gasping',
		title: 'Gasping after a dose',
		when: 'Fast breathing, fish at the surface or in the flow, rolling.',
		steps: [
			'Air first, as much as there is.',
			'Stop dosing.',
			'Change half the water with matched new water.',
			'Carbon in (for copper a resin that binds it too).',
			'Test oxygen, ammonia and the medicine.',
			'Call a veterinarian; no further dose before one has spoken.'
		],
		...keepers
	},
	{
		id: 'overdose',
		title: 'Overdose',
		when: 'A reading above the ceiling, or more poured in than planned.',
		steps: [
			'Air first.',
			'No further dose of this medicine.',
			'Read again, with a fresh sample and clean glass.',
			'Still too high: change matched water until it is inside the window, and do not make up for the change.',
			'Fish in distress: do not wait for the second reading.',
			'Carbon in, and for copper a resin.',
			'Call a veterinarian.'
		],
		...keepers
	}
];
