export { columns, computedColumns, typedAt, typedColumns, type ColumnKey, type TypedKey } from './columns.ts';
export {
	at,
	advance,
	boxOf,
	holds,
	moveTo,
	step,
	type Box,
	type Direction,
	type Extent,
	type Selection,
	type Spot
} from './selection.ts';
export { walked } from './walk.ts';
export { actOf, arrows, type Act, type KeyPress } from './keys.ts';
export {
	freeId,
	deleteRows,
	duplicateRows,
	insertRow,
	isBlank,
	moveRows,
	type PhaseRow,
	type SheetDocument
} from './rows.ts';
export { dangles, pointAbove, rowsGone } from './dangling.ts';
export { goneInWords } from './reference.ts';
export { courseNamed, courseOf, insertCourse, type Course } from './courses.ts';
export { medicineText, type ShelfEntry } from './shelf.ts';
export {
	cellText,
	findingsByCell,
	gridTexts,
	kindText,
	markOf,
	problemsByCell,
	unchanged,
	type Desk
} from './table.ts';
export { clearBox, takeBlock, typeCell } from './typing.ts';
export { findNext } from './find.ts';
export { fillDown, fillRight } from './fill.ts';
export { toHtml, toTsv } from './clipboard.ts';
export { pasted, pullBox, pulled, type Put } from './putting.ts';
export { offers, type CourseHints, type Offer } from './suggest.ts';
export { carriedOver, emptyHistory, inverted, record, redo, undo, type History } from './history.ts';
export { arrivalDocument, tankName, type Arrival } from './arrival.ts';
export { theirsIn, type Question } from './question.ts';
export {
	acted,
	adopted,
	answered,
	heard,
	opened,
	refused,
	type Act as SheetAct,
	type Save,
	type WorkingCopy
} from './working-copy.ts';
