export { instantIn, wallClock, type WallClock } from './moment.ts';
export { signGroups, signWords } from './signs.ts';
export {
	formWords,
	measureOf,
	measuresOf,
	shownStep,
	shownValue,
	valueText,
	type Measure
} from './measures.ts';
export { entryWords, factWords, lotName, medicineName, taskName, type Names } from './words.ts';
export {
	factKinds,
	kindNames,
	restartReason,
	type FactField,
	type FactKind,
	type FactKindRow
} from './fact-kinds.ts';
export {
	factOf,
	freeLotId,
	measureTyped,
	momentTrouble,
	troublesOf,
	typedOf,
	withUnit,
	type FieldTrouble,
	type RawEntry,
	type Typed
} from './fact-entry.ts';
export { filtered, logLines, writersOf, type LogFilter, type LogLine, type Writer } from './lines.ts';
export {
	bagAmmonia,
	raisePptPerDay,
	salinityPath,
	sickTracks,
	type Reached,
	type BagAmmonia,
	type SalinityPath,
	type Track
} from './intake.ts';
export { ledgerOf, rowAt, type Ledger, type LedgerJob, type LedgerRow } from './grid.ts';
export { differencesOf, leansNowhere, type Difference, type Wrongness } from './difference.ts';
export { readBlock, readColumn, type BlockLine, type BlockPlace } from './block.ts';
export { ledgerCsv, readingsCsv } from './export.ts';
