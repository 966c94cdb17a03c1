/**
 * The store's tables, alike on both engines: ids and instants are text (ISO 8601, UTC), documents and bodies are
 * JSON text.
 */
export interface Tables {
	migration: { name: string; applied: string };
	run: RunTable;
	edit: EditTable;
	log: LogTable;
	feed: FeedTable;
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

export type SaveKind = 'create' | 'edit' | 'restore' | 'delete' | 'undelete' | 'import';
