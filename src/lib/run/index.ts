export { apply, applyAll, invert, type Edit } from './edit.ts';
export { same } from './cross.ts';
export {
	carry,
	carryWithout,
	exchange,
	rebase,
	type Carried,
	type Clash,
	type Pulled,
	type Rebased
} from './rebase.ts';
export { moveOf, moveText, type Move } from './move.ts';
export { dayNumber, dayOf, dayText, isDay, weekday } from './days.ts';
export { readLog, type Choice, type Correction, type Fact, type LogEntry, type LoggedAmount } from './log.ts';
export { mostWaterL, readPouredAmount, takesOf, type Takes } from './log-amount.ts';
export { bagForms, type Bag, type BagForm } from './log-bag.ts';
export { countedOf } from './medicine-reader.ts';
export { presentLots } from './present.ts';
export { runIdOf } from './run-id.ts';
export {
	canonicalCell,
	cellColumns,
	printCell,
	readCell,
	type CellColumn,
	type CellValues
} from './cells/cell.ts';
export type { CellContext, PrintContext } from './cells/context.ts';
export { printDay, readDay } from './cells/date.ts';
export { expandRule } from './cells/expansion.ts';
export { readRun } from './read-run.ts';
export type {
	Band,
	CellProblem,
	Change,
	Day,
	Lasts,
	Lot,
	Medicine,
	Phase,
	Repeat,
	Run,
	Source,
	Start,
	Strength,
	Tank,
	TestRule
} from './run.ts';
export {
	aerations,
	appetites,
	changeSources,
	conditioners,
	equipment,
	inhabitants,
	lightings,
	logKinds,
	measurables,
	phaseKinds,
	readingForms,
	signs,
	substrates,
	takens,
	type Appetite,
	type Equipment,
	type LogKind,
	type Measurable,
	type PhaseKind,
	type ReadingForm,
	type Sign,
	type Taken
} from './vocabulary.ts';
export { readPlanFile, writePlanFile, type PlanFile } from './plan-file.ts';
export { planJsonSchema, type PlanDocument } from './schema.ts';
