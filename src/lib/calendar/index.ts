export { planToCsv } from './csv.ts';
export type { CalendarEvent, Draft, When } from './event.ts';
export { eventsOf, type EventOptions } from './events.ts';
export { eventsToIcs, planToIcs, plansToIcs, type IcsOptions, type Planned } from './ics.ts';
export { minutesFor, taskKinds } from './length.ts';
export { readIcs } from './read-ics.ts';
export { rowOfEvent, stamp, type IdentityRow, type Revision } from './revision.ts';
export { planToText } from './text.ts';
