export { planToCsv } from './csv.ts';
export type { CalendarEvent, Draft, When } from './event.ts';
export { eventsOf, type EventOptions } from './events.ts';
export { feedBounds, feedOf, leftOutSentences, type Feed, type FeedOptions, type LeftOut } from './feed.ts';
export { eventsToIcs, planToIcs, plansToIcs, type IcsOptions, type Planned } from './ics.ts';
export { minutesFor, taskKinds } from './length.ts';
export { readIcs } from './read-ics.ts';
export { rowOfEvent, stamp, type IdentityRow, type Revision } from './revision.ts';
export { planToText } from './text.ts';
export { chipsOf, glyphOf, type Chip, type Glyph, type ShelfMarks } from './chip.ts';
export type { Hue } from './hue.ts';
export {
	dayPosition,
	figure,
	levelOf,
	stripHeight,
	stripWidth,
	type Curve,
	type Gauge,
	type Mark,
	type Strip
} from './tide-strip.ts';
export {
	gaugesOf,
	layWeeks,
	phaseLabel,
	type Almanac,
	type BandPiece,
	type DayCell,
	type Week
} from './weeks.ts';
export { rosterOf, type Roster, type RosterRow } from './roster.ts';
