export { kindNames, readChoices, usualKinds, type Choices } from './choices.ts';
export { planToCsv } from './csv.ts';
export { taskKinds } from '../planner/index.ts';
export type { CalendarEvent, Draft, When } from './event.ts';
export { eventsOf, listingsOf, type EventOptions, type Listing } from './events.ts';
export { feedBounds, feedOf, leftOutSentences, type Feed, type FeedOptions, type LeftOut } from './feed.ts';
export { eventsToIcs, planToIcs, plansToIcs, type IcsOptions, type Planned } from './ics.ts';
export { readIcs } from './read-ics.ts';
export { rowOfEvent, stamp, type IdentityRow, type Revision } from './revision.ts';
export { newsOf, readObject, type News, type Received } from './received.ts';
export { writeObject, type ObjectKind } from './server-object.ts';
export { planToText } from './text.ts';
export { chipsOf, glyphOf, type Chip, type Glyph, type ShelfMarks } from './chip.ts';
export { amountIn, planIn } from './telling.ts';
export { medicineHues, type Hue } from './hue.ts';
export type { Curve, Mark } from './curve.ts';
export { chartGauges, figure, type Gauge, type GaugePlace } from './gauge.ts';
export {
	centred,
	chartWidth,
	instantAt,
	levelChart,
	namedDays,
	serviceSamples,
	valuesAt,
	wholeRun,
	zoomed,
	type LevelChart,
	type View
} from './level-chart.ts';
export { stripHeight, stripWidth, type Strip } from './tide-strip.ts';
export { kept } from './kept.ts';
export { layWeeks, phaseLabel, type Almanac, type BandPiece, type DayCell, type Week } from './weeks.ts';
export { hoursOf, type HourRow } from './hours.ts';
export {
	fixedBecause,
	hourBecause,
	hourForbidden,
	hourOf,
	keepsPlace,
	putThere,
	staysBecause,
	type Place
} from './moving.ts';
export { rosterOf, type Roster, type RosterLoad, type RosterRow } from './roster.ts';
