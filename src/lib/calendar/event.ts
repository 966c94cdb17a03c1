import type { Instant } from '../planner/index.ts';
import type { Day } from '../run/index.ts';
import { digest } from './digest.ts';

/** Timed in UTC, so that no calendar has to guess a zone; or a whole local day. */
export type When = { start: Instant; end: Instant } | { day: Day };

/** What a calendar shows of one task, or of one service. */
export interface Draft {
	/** `task id @ run id`; never made of a date */
	uid: string;
	when: When;
	title: string;
	description: string;
	/** absolute http(s) address of the task; null: no link */
	url: string | null;
	categories: string[];
	/** before the start; negative: after it (a whole day starts at midnight); null: silent */
	alarmMinutes: number | null;
	/** null: still to do. CONFIRMED: it was done. CANCELLED: missed, or gone from the plan */
	status: 'CONFIRMED' | 'CANCELLED' | null;
}

/** A draft with its standing among earlier versions of itself (RFC 5545 3.8.7). */
export interface CalendarEvent extends Draft {
	sequence: number;
	/** also its DTSTAMP: the time of the last visible change, so that an unchanged plan gives unchanged bytes */
	lastModified: Instant;
}

/** Fingerprint of what raises SEQUENCE: time and status. */
export const timingOf = (draft: Draft): string =>
	digest(
		JSON.stringify([
			'day' in draft.when ? [draft.when.day] : [draft.when.start, draft.when.end],
			draft.status
		])
	);

/** Fingerprint of everything else a calendar shows. */
export const contentOf = (draft: Draft): string =>
	digest(JSON.stringify([draft.title, draft.description, draft.url, draft.categories, draft.alarmMinutes]));
