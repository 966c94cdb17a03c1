export type { Ask, AskedDose, Bound, Keep, Tone, Verdict } from './ask.ts';
export type { Typed } from './held.ts';
export { judge } from './verdict.ts';
export { seen, type LoggedLine } from './logged.ts';
export { isAnswered, type JobRow, type Said } from './job-row.ts';
export { standingName, standings, type Hygiene, type Standing } from './standing.ts';
export {
	roundOf,
	tankToday,
	todayOf,
	type MissedJob,
	type TankToday,
	type Today,
	type TodayLot
} from './today.ts';
export { withEntries, type Judging, type SentEntry, type ShownRow, type ShownTank } from './overlay.ts';
export { isMeasured, measuredIn, readPoured } from './poured.ts';
export { readTyped, type TypedReading } from './typed-reading.ts';
export { unitShown } from './unit-shown.ts';
