import type { Label } from './labels.ts';
import type { Active, Group, Target } from './vocabulary.ts';

/** How a value is known: P published (source named), CP common practice without source, J judgment, M from memory. */
export type Mark = 'P' | 'CP' | 'J' | 'M';

/** A fact never travels without where it comes from. */
export interface Sourced<T> {
	value: T;
	mark: Mark;
	/** short citation, or exactly `common practice, no source`, `judgment, no source`, `from memory` */
	source: string;
	/** what the value leans on, or where it stops holding */
	note?: string;
}

export interface Band {
	low: number;
	high: number;
}

/** Levels in the row's unit. Above `warm.aboveC` the warm ceiling holds; `minutes.high` is the longest bath. */
export interface BathLimits {
	ceiling: Sourced<number> | null;
	warm: Sourced<{ aboveC: number; ceiling: number }> | null;
	minutes: Sourced<Band>;
}

/** A use on record. `level` is in the unit of the medicine's row, ppt for a method that lowers salinity. */
export interface UseRow {
	of: string;
	level: Band | null;
	minutes?: Band;
	hours?: Band;
	days?: Band;
	doses?: Band;
	gapDays?: Band;
	result?: string;
	mark: Mark;
	source: string;
}

/** A level on record that did harm. */
export interface ToxicityRow {
	of: string;
	level: Band;
	hours?: number;
	mark: Mark;
	source: string;
}

/** One medicine of the shelf. Levels are mg/L, or uL/L of the whole liquid where `unit` says so. */
export interface MedicineRow extends Label {
	/** wide: each dose is the full dose, added; narrow: topped up only, never past the ceiling */
	margin: Sourced<'wide' | 'narrow'>;
	/** the useful window; null where only the bottle's label can say */
	window: Sourced<Band> | null;
	/** aim inside the window; null: floor plus 0.6 of the width */
	aim: Sourced<number> | null;
	ceiling: Sourced<number> | null;
	/** at or under this it counts as gone; null: only the file's own level can say (`clearAt`) */
	clear: Sourced<number> | null;
	/** most that one service may raise; null: no such limit */
	raisePerService: Sourced<number> | null;
	rampDays: Sourced<number> | null;
	/** the quicker rise when velvet is suspected */
	hurry: Sourced<{ steps: number; hoursApart: number }> | null;
	/** limits of a short bath in its own vessel or with the keeper standing by; null: not used as one */
	bath: BathLimits | null;
	/** hours a single dose is meant to act undisturbed */
	contactHours: Sourced<number>;
	/** half-life in days at the least and the greatest loss; null: no loss */
	loss: Sourced<{ leastHalfLifeDays: number | null; greatestHalfLifeDays: number | null }>;
	course: Sourced<{ days?: number; doses?: number; gapDays?: number }> | null;
	/** oldest test that still vouches for a hold, hours */
	testWithinHours: Sourced<number> | null;
	removedBy: Sourced<
		readonly ('carbon' | 'resin' | 'uv' | 'skimmer' | 'ozone' | 'light' | 'calcareous' | 'change')[]
	>;
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
	/** uses on record, the strength each had and how long; newest knowledge last */
	uses: readonly UseRow[];
	/** levels on record that harmed or killed */
	toxicity: readonly ToxicityRow[];
	notes: readonly Sourced<string>[];
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
	/** several of them in one tank fight */
	fights: boolean;
	/** lowest salinity it is held at, ppt; null: not for low salinity */
	lowestSalinityPpt: Sourced<number> | null;
	notes: readonly Sourced<string>[];
}

/** How long one stage lasts; `temperatureC` null: not bound to one in the source. */
export interface StageRow {
	stage: string;
	days: Band;
	temperatureC: number | Band | null;
	mark: Mark;
	source: string;
}

export interface ParasiteRow {
	target: Target;
	name: string;
	signs: readonly string[];
	/** what to do first when it is suspected */
	first: Sourced<string>;
	stages: readonly StageRow[];
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

/**
 * A ready course: rows for the sheet, written in its own grammar. `{copper-ionic}` (an active in braces)
 * stands for the medicine's id in the file, `{day}` for the first day; `coursePhases` fills both in.
 */
export interface CourseRow {
	id: string;
	name: string;
	about: string;
	medicines: readonly Active[];
	phases: readonly Record<string, string | boolean>[];
	mark: Mark;
	source: string;
}
