import type { MedicineRow } from '../row.ts';
import { judged, practice, remembered } from '../sourced.ts';

/** Half-life of a level that falls by a tenth each day. */
export const tenthADayHalfLifeDays = Math.LN2 / -Math.log(0.9);

/** Nothing on record: none may be lost, or half of it in a day. */
export const unknownLoss = judged(
	{ leastHalfLifeDays: null, greatestHalfLifeDays: 1 },
	'nothing published at hand; the ceiling is judged as if nothing were lost, the floor as if half went each day'
);

/** What a row says where nothing particular is known of the medicine. A row overrides what it knows better. */
export const plain = {
	aim: null,
	clear: null,
	raisePerService: null,
	rampDays: null,
	hurry: null,
	bath: null,
	contactHours: judged(24),
	loss: unknownLoss,
	course: null,
	testWithinHours: null,
	removalLPerDay: null,
	oxygenDemand: null,
	lightSensitive: judged(false, 'no report at hand'),
	foams: judged(false, 'no report at hand'),
	temperatureC: null,
	salinityPpt: null,
	pH: null,
	notFor: judged([], 'no group is known to us as one that never tolerates it'),
	sensitive: judged({ groups: [], aim: null, rampDays: null }, 'no group is known to us as a sensitive one'),
	harmsInvertebrates: practice(true, 'no medicine of this shelf goes into a reef display'),
	strengthForms: ['liquid', 'powder'],
	dissolvesGPerL: null,
	disturbs: judged([], 'no disturbed kit is known to us'),
	legal: remembered('Rules differ by country. Ask a veterinarian or the medicines authority before buying.'),
	prescriptionOnly: false,
	treats: {},
	doesNotTreat: {},
	uses: [],
	toxicity: [],
	notes: [],
	disagreements: []
} as const satisfies Partial<MedicineRow>;
