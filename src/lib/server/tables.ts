import type { CalendarTables } from './caldav-rows.ts';

/**
 * The store's tables, alike on both engines: ids and instants are text (ISO 8601, UTC), documents and bodies are
 * JSON text.
 */
export interface Tables extends CalendarTables {
	migration: { name: string; applied: string };
	run: RunTable;
	edit: EditTable;
	log: LogTable;
	feed: FeedTable;
	person: PersonTable;
	session: SessionTable;
	attempt: AttemptTable;
	audit: AuditTable;
	course: CourseTable;
	photo: PhotoTable;
}

interface RunTable {
	id: string;
	name: string;
	/** the plan file without its log, as of `version` */
	document: string;
	/** the same as of version 1: the history replayed on it gives `document` */
	original: string;
	version: number;
	created: string;
	updated: string;
	deleted: string | null;
}

/** One save. Append-only. */
interface EditTable {
	run: string;
	/** the version this save made */
	version: number;
	/** by the client, once per run: a resend is recognised by it */
	id: string;
	at: string;
	who: string;
	what: SaveKind;
	edits: string;
}

/** One log entry. Append-only. */
interface LogTable {
	run: string;
	id: string;
	/** as the writer gave it, with its offset */
	at: string;
	kind: string;
	body: string;
	received: string;
	who: string;
}

/** A subscribed calendar. */
export interface FeedTable {
	id: string;
	name: string;
	scope: string;
	/** SHA-256 of the secret in its address */
	secret: string;
	created: string;
	/** what the last rendering remembers of its events */
	identity: string;
	/** the last good body */
	body: string | null;
	etag: string | null;
	changed: string | null;
	left_out: string | null;
}

/** Somebody who may enter. */
export interface PersonTable {
	id: string;
	name: string;
	/** the name as it is compared: folded to one case and form */
	folded: string;
	role: string;
	/** the passphrase, only as a salted hash with its cost */
	pass: string;
	created: string;
}

/** One device on which somebody has entered. */
export interface SessionTable {
	id: string;
	/** SHA-256 of the token in the cookie */
	token: string;
	person: string;
	created: string;
	seen: string;
	/** what the browser calls itself */
	device: string;
}

/** Wrong passphrases of late, by a name's or an address's pigeonhole: there are so many holes and no more. */
export interface AttemptTable {
	hole: string;
	failed: number;
	last: string;
	/** until then nobody of this hole is listened to */
	until: string;
}

/** Who did what. Append-only; the oldest go when there are too many. */
export interface AuditTable {
	id: string;
	at: string;
	who: string;
	what: string;
	/** what it was done to: a run's id, a person's name; empty for none */
	about: string;
	address: string;
}

/** A picture of an observation. Append-only. */
interface PhotoTable {
	id: string;
	run: string;
	type: string;
	/** base64, so that both engines keep it as text */
	body: string;
	received: string;
	who: string;
}

/** Phases a keeper kept under a name. */
interface CourseTable {
	id: string;
	name: string;
	phases: string;
	created: string;
	who: string;
}

export type SaveKind = 'create' | 'edit' | 'restore' | 'delete' | 'undelete' | 'import';
