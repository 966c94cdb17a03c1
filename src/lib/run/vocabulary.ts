/** The closed word lists of a plan file that the formulary does not own. */
export const phaseKinds = [
	'settle',
	'observe',
	'hold',
	'pulse',
	'daily',
	'dip',
	'low-salinity',
	'transfer',
	'feed',
	'washout',
	'release'
] as const;
export const aerations = ['none', 'coarse', 'fine'] as const;
export const substrates = ['none', 'inert', 'calcareous'] as const;
export const inhabitants = ['fish', 'invertebrates', 'live-rock', 'plants'] as const;
export const lightings = ['on', 'dim', 'off'] as const;
export const conditioners = ['none', 'binder', 'reducing'] as const;
/** What a kit can measure; a medicine's own id is allowed beside these. */
export const measurables = ['NH3', 'NO2', 'NO3', 'Cu', 'pH', 'S', 'T', 'O2'] as const;
export const signs = [
	'white-spots',
	'gold-dust',
	'haze',
	'fast-breathing',
	'into-flow',
	'stringy-faeces',
	'thin',
	'black-spots',
	'blisters',
	'ragged-fins',
	'cloudy-eye',
	'pale-gills',
	'mucus',
	'flashing',
	'piping',
	'lethargy',
	'off-feed',
	'sore',
	'swollen',
	'none'
] as const;
export const equipment = ['carbon', 'resin', 'uv', 'skimmer', 'ozone', 'air', 'heater', 'filter'] as const;
/** What a kit's number counts: ammonia as TAN (N), as NH3 in all, or only the free part; copper by its form. */
export const readingForms = ['tan', 'nh3-total', 'nh3-free', 'ionic', 'chelated'] as const;
export const changeSources = ['source', 'fresh'] as const;
/** What the keeper chose about an open task. */
export const takens = ['now', 'now-shift', 'skip', 'restart'] as const;
export const appetites = ['eaten', 'picked', 'refused'] as const;
export const logKinds = [
	'done',
	'missed',
	'reading',
	'observation',
	'loss',
	'fish',
	'change',
	'dose',
	'equipment',
	'topoff',
	'correct',
	'choice'
] as const;

export type PhaseKind = (typeof phaseKinds)[number];
export type Sign = (typeof signs)[number];
export type Equipment = (typeof equipment)[number];
export type Measurable = (typeof measurables)[number];
export type ReadingForm = (typeof readingForms)[number];
export type ChangeSource = (typeof changeSources)[number];
export type Taken = (typeof takens)[number];
export type Appetite = (typeof appetites)[number];
export type LogKind = (typeof logKinds)[number];
