import type { Instant } from '../planner/index.ts';
import { contentOf, timingOf, type CalendarEvent, type Draft } from './event.ts';

/** What has to be remembered of an event for the next time it is written. */
export interface IdentityRow {
	uid: string;
	sequence: number;
	lastModified: Instant;
	/** fingerprints of time and status, and of everything else shown */
	timing: string;
	content: string;
	/** when it left the plan; null while it is in. Kept, so that an event that comes back outranks its old self */
	goneAt: Instant | null;
}

export interface Revision {
	rows: IdentityRow[];
	events: CalendarEvent[];
}

/**
 * Hands each draft its standing: a new one begins at 0; SEQUENCE rises by one exactly when time or status changes
 * or the event comes back; LAST-MODIFIED rises with every visible change; neither ever falls, whatever `now` says.
 * Rows of drafts that are gone stay as tombstones. Rows that this plan never held are handed through.
 */
export function stamp(previous: readonly IdentityRow[], drafts: readonly Draft[], now: Instant): Revision {
	const known = new Map(previous.map((row) => [row.uid, row]));
	const rows: IdentityRow[] = [];
	const events: CalendarEvent[] = [];
	for (const draft of drafts) {
		const row = rowOf(draft, known.get(draft.uid), now);
		known.delete(draft.uid);
		rows.push(row);
		events.push({ ...draft, sequence: row.sequence, lastModified: row.lastModified });
	}
	for (const row of known.values()) rows.push(row.goneAt === null ? { ...row, goneAt: now } : row);
	return { rows, events };
}

/** The row of an event that stands in a file already. */
export const rowOfEvent = (event: CalendarEvent): IdentityRow => ({
	uid: event.uid,
	sequence: event.sequence,
	lastModified: event.lastModified,
	timing: timingOf(event),
	content: contentOf(event),
	goneAt: null
});

function rowOf(draft: Draft, old: IdentityRow | undefined, now: Instant): IdentityRow {
	const shown = { uid: draft.uid, timing: timingOf(draft), content: contentOf(draft), goneAt: null };
	if (!old) return { ...shown, sequence: 0, lastModified: now };
	const moved = old.timing !== shown.timing || old.goneAt !== null;
	if (!moved && old.content === shown.content) return old;
	return { ...shown, sequence: old.sequence + (moved ? 1 : 0), lastModified: after(old.lastModified, now) };
}

/** `now`, or a second past the old time where the clock stands behind it. */
function after(old: Instant, now: Instant): Instant {
	if (now > old) return now;
	return new Date(Date.parse(old) + 1000).toISOString().replace('.000Z', 'Z');
}
