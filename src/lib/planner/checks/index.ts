import type { Finding, Severity } from '../plan.ts';
import { aboveCeiling, raiseTooLarge, stepTooCoarse } from './ceiling.ts';
import type { Check, Seen } from './check.ts';
import {
	awayOnTask,
	doseTooSoon,
	fishAdded,
	neverEnds,
	pulseGap,
	riseTooFast,
	timeMoved,
	transferGap
} from './days.ts';
import {
	conditionerWithCopper,
	equipmentRuns,
	foaming,
	kitDisturbed,
	lightsOn,
	limeWithCopper,
	noAir,
	prescriptionMissing
} from './equipment.ts';
import { belowFloor, courseShort, cystsOutlive, holdUntested } from './hold.ts';
import { oxygenScarce } from './oxygen.ts';
import { measureMissing, quantityMissing } from './quantities.ts';
import {
	copperBeforeEating,
	copperScale,
	courseMissesSuspect,
	deathsClose,
	doseUnanswered,
	readingDoubtful,
	refusesFood,
	releaseEarly,
	releaseOpen
} from './record.ts';
import { sharedWater } from './sharing.ts';
import { notTolerated, othersPresent, salinityNotTolerated, toleranceUnknown } from './tolerance.ts';
import {
	ammoniaOver,
	changeSize,
	heatLoose,
	medicineConditions,
	nitrateOver,
	sourceUnmatched,
	stocking,
	weekWithoutChange
} from './water.ts';

export type { Check, Draft, Seen } from './check.ts';

/** Every check the planner knows; a new one is a row here and its file beside this one. */
export const checks: readonly Check[] = [
	quantityMissing,
	measureMissing,
	neverEnds,
	sharedWater,
	aboveCeiling,
	raiseTooLarge,
	stepTooCoarse,
	belowFloor,
	holdUntested,
	cystsOutlive,
	courseShort,
	notTolerated,
	toleranceUnknown,
	salinityNotTolerated,
	othersPresent,
	equipmentRuns,
	limeWithCopper,
	lightsOn,
	noAir,
	foaming,
	conditionerWithCopper,
	kitDisturbed,
	prescriptionMissing,
	oxygenScarce,
	ammoniaOver,
	nitrateOver,
	weekWithoutChange,
	changeSize,
	sourceUnmatched,
	stocking,
	heatLoose,
	medicineConditions,
	awayOnTask,
	pulseGap,
	doseTooSoon,
	transferGap,
	riseTooFast,
	timeMoved,
	fishAdded,
	doseUnanswered,
	readingDoubtful,
	copperScale,
	refusesFood,
	copperBeforeEating,
	courseMissesSuspect,
	deathsClose,
	releaseEarly,
	releaseOpen
];

const gravity: Record<Severity, number> = { stop: 0, caution: 1, note: 2 };

/** All findings, by date (the whole run first), severity, phase, rule. */
export function findingsOf(seen: Seen): Finding[] {
	return checks
		.flatMap((check) =>
			check.find(seen).map((draft): Finding => ({
				rule: check.rule,
				severity: draft.severity ?? check.severity,
				date: draft.date,
				phase: draft.phase,
				...(draft.cell === undefined ? {} : { cell: draft.cell }),
				...(draft.task === undefined ? {} : { task: draft.task }),
				message: draft.message,
				because: draft.because,
				source: draft.source ?? check.source,
				repairs: []
			}))
		)
		.sort(inOrder);
}

function inOrder(a: Finding, b: Finding): number {
	return (
		compare(a.date ?? '', b.date ?? '') ||
		gravity[a.severity] - gravity[b.severity] ||
		compare(a.phase ?? '', b.phase ?? '') ||
		compare(a.rule, b.rule)
	);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
