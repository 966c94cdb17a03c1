import type { Active, Group, Target } from './vocabulary.ts';

/** How a value is known: P published (source named), CP common practice without source, J judgment, M from memory. */
export type Mark = 'P' | 'CP' | 'J' | 'M';

/** A fact never travels without where it comes from. */
export interface Sourced<T> {
	value: T;
	mark: Mark;
	/** short citation, or `common practice, no source`, `judgment, no source`, `from memory` */
	source: string;
}

export interface Band {
	low: number;
	high: number;
}

/** One medicine of the shelf. Levels are mg/L, or uL/L of the whole liquid where `unit` says so. */
export interface MedicineRow {
	active: Active;
	/** for people: "Ionic copper" */
	name: string;
	/** for a calendar cell: "Cu" */
	short: string;
	unit: 'mg/L' | 'uL/L';
	/** wide: each dose is the full dose, added; narrow: topped up only, never past the ceiling */
	margin: Sourced<'wide' | 'narrow'>;
	/** the useful window; null where only the bottle's label can say */
	window: Sourced<Band> | null;
	/** aim inside the window; null: floor plus 0.6 of the width */
	aim: Sourced<number> | null;
	ceiling: Sourced<number> | null;
	/** at or under this it counts as gone */
	clear: Sourced<number>;
	/** most that one service may raise; null: no such limit */
	raisePerService: Sourced<number> | null;
	rampDays: Sourced<number> | null;
	/** hours a single dose is meant to act undisturbed */
	contactHours: Sourced<number>;
	/** half-life in days at the least and the greatest loss; null: no loss */
	loss: Sourced<{ leastHalfLifeDays: number | null; greatestHalfLifeDays: number | null }>;
	course: Sourced<{ days?: number; doses?: number; gapDays?: number }> | null;
	/** oldest test that still vouches for a hold, hours */
	testWithinHours: Sourced<number> | null;
	removedBy: Sourced<readonly ('carbon' | 'resin' | 'uv' | 'skimmer' | 'ozone' | 'light' | 'calcareous' | 'change')[]>;
	/** what taking it out by carbon or resin does to a forecast, L/day per use; null: none may be promised */
	removalLPerDay: Sourced<number> | null;
	harmsFilter: Sourced<boolean>;
	/** mg O2 per litre and hour asked by the level `perLevel`; null: none worth counting */
	oxygenDemand: Sourced<{ mgPerLPerHour: number; perLevel: number }> | null;
	lightSensitive: Sourced<boolean>;
	foams: Sourced<boolean>;
	/** do not use outside these; null bound: none known */
	temperatureC: Sourced<{ max: number | null }> | null;
	salinityPpt: Sourced<{ min: number | null }> | null;
	pH: Sourced<{ min: number | null }> | null;
	/** groups that do not tolerate it, and those that take less, slower */
	notFor: Sourced<readonly Group[]>;
	sensitive: Sourced<{ groups: readonly Group[]; aim: number | null; rampDays: number | null }>;
	harmsInvertebrates: Sourced<boolean>;
	/** strength a bottle needs before a number may be given; text of what is asked */
	strengthForms: readonly ('liquid' | 'powder' | 'whole')[];
	/** how to get it into the water, one sentence */
	howToGive: Sourced<string>;
	/** poor solubility: most g/L to stir up; null: dissolves */
	dissolvesGPerL: Sourced<number> | null;
	/** kits or readings it disturbs */
	disturbs: Sourced<readonly string[]>;
	/** hazards to people, shown on each task */
	cautions: readonly string[];
	legal: Sourced<string>;
	prescriptionOnly: boolean;
	/** what each stage of which parasite it reaches */
	treats: Partial<Record<Target, Sourced<string>>>;
	/** suspects it does not treat, with the reason */
	doesNotTreat: Partial<Record<Target, Sourced<string>>>;
	/** where published sources disagree: kept and shown, never averaged */
	disagreements: readonly { about: string; says: string; source: string }[];
}

export type Sharing = 'may' | 'never' | 'unknown';

export interface GroupRow {
	group: Group;
	name: string;
	elasmobranch: boolean;
	scaleless: boolean;
	needsLid: boolean;
	sleepsBuried: boolean;
	/** lowest salinity it is held at, ppt; null: not for low salinity */
	lowestSalinityPpt: Sourced<number> | null;
	notes: readonly Sourced<string>[];
}

export interface ParasiteRow {
	target: Target;
	name: string;
	signs: readonly string[];
	stages: readonly { stage: string; days: Band | null; temperatureC: number | null; mark: Mark; source: string }[];
	notes: readonly Sourced<string>[];
}

/** Earliest and latest day for the second dose, counted from the first. */
export interface GapBounds {
	/** not before this many days */
	earliestDays: number;
	/** before this many days */
	latestDays: number;
	proposedDays: number;
	because: string;
	source: string;
}

/** A ready course: rows for the sheet, written in its own grammar. `{m}` stands for the medicine's id in the file. */
export interface CourseRow {
	id: string;
	name: string;
	about: string;
	medicines: readonly Active[];
	phases: readonly Record<string, string | boolean>[];
	mark: Mark;
	source: string;
}
