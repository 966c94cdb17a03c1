import type { Active, Group, Target } from '../formulary/index.ts';
import type { Problem } from '../units/index.ts';
import type { LogEntry } from './log.ts';
import type { Move } from './move.ts';
import type { aerations, conditioners, inhabitants, lightings, substrates, PhaseKind } from './vocabulary.ts';

/** A calendar day in the run's time zone, `YYYY-MM-DD`. */
export type Day = string;

/**
 * A run as the planner reads it: every cell read, every number in its one unit (named in the key).
 * `null` means "not said": the planner never invents a number for it.
 */
export interface Run {
	id: string;
	name: string;
	timeZone: string;
	/** wall-clock times of the daily services, `HH:MM`, ascending, at least one */
	services: string[];
	tank: Tank;
	/** a second, clean tank, if there is one */
	spare: Tank | null;
	source: Source;
	limits: { nh3MgNPerL: number; nitrateMgPerL: number };
	lots: Lot[];
	medicines: Medicine[];
	phases: Phase[];
	away: Day[];
	/** who may come in the keeper's place, by day */
	hands: Record<Day, string>;
	/** what a drag writes: task id to its new day */
	moves: Record<string, Move>;
	log: LogEntry[];
	/** cells that are present and could not be read; the rest plans on without them */
	problems: CellProblem[];
}

/** `cell` is the place in the plan file, e.g. `phases.copper.starts` or `tank.net`. */
export interface CellProblem extends Problem {
	cell: string;
}

export interface Tank {
	name: string;
	netL: number | null;
	grossL: number | null;
	temperatureC: number | null;
	salinityPpt: number | null;
	pH: number | null;
	/** water stripped of ammonia by the filter, L/day; 0 when there is none */
	filterClearsLPerDay: number;
	ammoniaMgNPerL: number | null;
	nitrateMgPerL: number | null;
	evaporatesLPerDay: number;
	aeration: (typeof aerations)[number] | null;
	carbon: boolean;
	resin: boolean;
	uv: boolean;
	skimmer: boolean;
	ozone: boolean;
	substrate: (typeof substrates)[number] | null;
	holds: (typeof inhabitants)[number][];
	lights: (typeof lightings)[number] | null;
	heaterWithinC: number | null;
	conditioner: (typeof conditioners)[number];
	/** minutes a day the keeper can give this tank */
	minutes: number | null;
	lid: boolean | null;
}

export interface Source {
	name: string;
	ammoniaMgNPerL: number;
	nitrateMgPerL: number;
	salinityPpt: number | null;
	temperatureC: number | null;
	pH: number | null;
	/** litres ready to use, if limited */
	volumeL: number | null;
	/** it is made from salt for each change, a day ahead */
	mixed: boolean;
}

export interface Lot {
	id: string;
	what: string;
	group: Group;
	count: number;
	massG: number | null;
	feedGPerDay: number | null;
	/** protein as a share of the feed's mass as fed, 0 to 1 */
	protein: number | null;
	/** stated production, mg N/day; wins over feed times protein */
	tanMgPerDay: number | null;
	arrived: Day | null;
	signs: string[];
}

/** What is in the bottle. `whole` counts the liquid itself (formalin, v/v). */
export type Strength =
	| { form: 'liquid'; mgPerMl: number }
	| { form: 'powder'; gPerG: number }
	| { form: 'whole'; mlPerMl: number };

export interface Band {
	low: number;
	high: number;
}

/** Levels are mg/L, or uL/L (v/v) for a medicine counted as whole liquid. */
export interface Medicine {
	id: string;
	active: Active;
	strength: Strength | null;
	/** smallest step of the measuring tool: mL for liquids, mg for powders; null: no rounding */
	measure: number | null;
	/** the file's own values; undefined: the formulary's */
	level?: Band;
	ceiling?: number;
	/** days; null: no loss */
	halfLifeDays?: number | null;
	gapDays?: number;
	courseDays?: number;
	contactHours?: number;
	prescribed: boolean;
}

export type Start =
	| { on: Day }
	/** begins the day after `after` ends, plus days */
	| { after: string; plusDays: number }
	/** begins the day `with` begins, plus days */
	| { with: string; plusDays: number };

export type Lasts =
	| { days: number }
	| { doses: number }
	| { moves: number }
	| { minutes: number }
	| { untilClear: true }
	| { until: Day };

/** Which days of a phase, counted from its first. */
export type Repeat =
	| { everyDays: number }
	/** ISO weekdays, 1 Monday */
	| { weekdays: number[] }
	/** the text of an RFC 5545 RRULE value, without DTSTART */
	| { rule: string };

export type Change =
	{ auto: true } | { fraction: number; repeat: Repeat } | { fraction: number; beforeDose: true };

export interface TestRule {
	/** NH3, Cu, ... or a medicine's id */
	what: string;
	repeat: Repeat;
}

export interface Phase {
	id: string;
	kind: PhaseKind;
	/** id in `medicines` */
	medicine: string | null;
	starts: Start | null;
	lasts: Lasts | null;
	/** mg/L (uL/L for formalin), ppt for low salinity, mg per g of food for feed; a single value has low = high */
	level: Band | null;
	aim: number | null;
	repeat: Repeat | null;
	rampDays: number | null;
	change: Change | null;
	test: TestRule[];
	carbon: boolean;
	resin: boolean;
	target: Target | null;
	/** litres of a dip's own vessel */
	bathL: number | null;
	/** how fast salinity may rise, ppt/day */
	risePptPerDay: number | null;
}
