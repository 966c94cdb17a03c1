export { checks } from './checks/index.ts';
export { compare, isSame, type Both, type Comparison, type PhaseChange, type TaskNote } from './compare.ts';
export { findingsBetween } from './compare-findings.ts';
export { compareWords, releaseSince, type ComparisonWords, type Names } from './compare-words.ts';
export { plan } from './planning.ts';
export { offerRepairs } from './repair/offer.ts';
export type {
	Amount,
	Finding,
	Instant,
	Learned,
	PhaseSpan,
	Plan,
	Repair,
	Sample,
	Severity,
	Supplies,
	Task,
	TaskKind,
	TaskState
} from './plan.ts';
export { setbacksOf, type Setback } from './setback.ts';
export { eachSlip, openSlips } from './slips/open.ts';
export { skippedOpen } from './slips/still-asks.ts';
export { wayTitle } from './slips/way-title.ts';
export { overdue } from './slips/overdue.ts';
export {
	briefSlip,
	shownSlips,
	type BriefSlip,
	type BriefWay,
	type ShownSlip,
	type ShownWay
} from './slips/shown.ts';
export type { ChoiceEntry, Slip, Way } from './slips/slip.ts';
export { dayIn, dayOfInstant, momentOf, servicesOf, wallOfInstant } from './clock.ts';
export { watchClock, type WatchClock } from './watch.ts';
export { minutesFor, taskKinds } from './minutes.ts';
export { needsStepMore } from './portion.ts';
export { litresAway, shareAway } from './ammonia-away.ts';
export { MOST_AT_ONCE } from './emergency-change.ts';
export { activeIn, bottlesOf, type Bottle } from './bottle.ts';
export { CONFIRMS_WITHIN_DAYS, levelOtherwise } from './doubt.ts';
export { WILD_FACTOR, WILD_FLOOR } from './hear.ts';
export { bodyOf, lotOf, type Body } from './carcass.ts';
export { slippedUnit } from './slipped-unit.ts';
export { bodyWords } from './carcass-words.ts';
export { breakFloorOf, holdLevels, isRampStep } from './phases/hold.ts';
export { PAUSE_MINUTES } from './credit.ts';
export { amountText, figure, measurableName, momentText, outageSays, underText } from './words.ts';
export { urgentFirst } from './urgent.ts';
