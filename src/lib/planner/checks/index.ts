import type { Finding, Severity } from '../plan.ts';
import { afterRelease } from './after-release.ts';
import { ammoniaNow } from './ammonia-now.ts';
import { foaming, noAir, oxygenScarce } from './air.ts';
import { ammoniaOver, filterStalls, nitrateOver, stocking } from './ammonia.ts';
import { copperBeforeEating, fishAdded, fishIntoCopper, waitsWhileSick } from './arrival.ts';
import { awayOnTask } from './away.ts';
import { bathTooLong, bathTooStrong } from './bath.ts';
import { aboveCeiling, raiseTooLarge } from './ceiling.ts';
import { changeSize, weekWithoutChange } from './change.ts';
import type { Check, Seen } from './check.ts';
import { fishFight, lidMissing, othersPresent } from './company.ts';
import { courseShort, cystsOutlive, targetUntreated } from './course.ts';
import { doneTwice } from './done-twice.ts';
import { doseTooBig } from './dose-size.ts';
import { doseUnanswered, readingDoubtful, readingUnconfirmed } from './dose-record.ts';
import {
	conditionerWithCopper,
	equipmentRuns,
	lightsOn,
	limeWithCopper,
	prescriptionMissing
} from './equipment.ts';
import { fishTemperature } from './fish-warmth.ts';
import { callTheVet, refusesFood } from './fish.ts';
import { pulseGap } from './gap.ts';
import { aimOutsideWindow, belowFloor, holdUntested, windowTooLow } from './hold.ts';
import { ionicWindow } from './copper-window.ts';
import { copperScale, kitDisturbed, kitTooCoarse, stepTooCoarse } from './kit.ts';
import { fishDied } from './loss.ts';
import { overNow } from './over-now.ts';
import { stillInWater } from './still-in-water.ts';
import { dosesLeftOut } from './left-out.ts';
import { neverEnds, planCut, timeMoved } from './placing.ts';
import { measureMissing, quantityMissing } from './quantities.ts';
import { releaseEarly, releaseOpen, releaseSalinity } from './release.ts';
import { medicineConditions, riseTooFast, salinityNotBorne, salinityTooHigh } from './salinity.ts';
import { withRows } from './row-name.ts';
import { sharedWater } from './sharing.ts';
import { sourceUnmatched } from './source.ts';
import { courseMissesSuspect } from './suspect.ts';
import { testAfterDose } from './test-order.ts';
import { notTolerated, sensitiveFish, toleranceUnknown } from './tolerance.ts';
import { doseTooSoon } from './too-soon.ts';
import { spareMissing, transferGap } from './transfer.ts';
import { equipmentUnknown } from './unknown-equipment.ts';
import { heatLoose } from './warmth.ts';
import { washoutShort, washoutUntested } from './washout.ts';

export type { Candidate, Check, Draft, Seen } from './check.ts';

/** Every check the planner knows; a new one is a row here and its file beside this one. */
export const checks: readonly Check[] = [
	quantityMissing,
	measureMissing,
	neverEnds,
	planCut,
	timeMoved,
	sharedWater,
	washoutShort,
	washoutUntested,
	stillInWater,
	aboveCeiling,
	raiseTooLarge,
	doseTooBig,
	bathTooStrong,
	bathTooLong,
	belowFloor,
	aimOutsideWindow,
	windowTooLow,
	holdUntested,
	cystsOutlive,
	courseShort,
	targetUntreated,
	pulseGap,
	doseTooSoon,
	dosesLeftOut,
	testAfterDose,
	transferGap,
	spareMissing,
	notTolerated,
	sensitiveFish,
	toleranceUnknown,
	salinityNotBorne,
	salinityTooHigh,
	riseTooFast,
	medicineConditions,
	othersPresent,
	lidMissing,
	fishFight,
	equipmentRuns,
	equipmentUnknown,
	limeWithCopper,
	lightsOn,
	conditionerWithCopper,
	prescriptionMissing,
	noAir,
	foaming,
	oxygenScarce,
	stepTooCoarse,
	kitTooCoarse,
	kitDisturbed,
	copperScale,
	ionicWindow,
	ammoniaNow,
	ammoniaOver,
	stocking,
	nitrateOver,
	filterStalls,
	weekWithoutChange,
	changeSize,
	sourceUnmatched,
	fishTemperature,
	heatLoose,
	awayOnTask,
	fishAdded,
	fishIntoCopper,
	copperBeforeEating,
	waitsWhileSick,
	courseMissesSuspect,
	doseUnanswered,
	readingDoubtful,
	readingUnconfirmed,
	overNow,
	doneTwice,
	refusesFood,
	callTheVet,
	fishDied,
	releaseEarly,
	afterRelease,
	releaseSalinity,
	releaseOpen
];

const gravity: Record<Severity, number> = { stop: 0, caution: 1, note: 2 };

/** All findings: stops before cautions before notes, each by date (the whole run last), phase, rule. */
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
				message: withRows(draft.message, seen.run),
				because: withRows(draft.because, seen.run),
				source: draft.source ?? check.source,
				repairs: []
			}))
		)
		.sort(inOrder);
}

/** Behind every date. */
const LAST = '~';

function inOrder(a: Finding, b: Finding): number {
	return (
		gravity[a.severity] - gravity[b.severity] ||
		compare(a.date ?? LAST, b.date ?? LAST) ||
		compare(a.phase ?? '', b.phase ?? '') ||
		compare(a.rule, b.rule)
	);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
