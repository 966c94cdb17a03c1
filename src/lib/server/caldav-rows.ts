/** The tables of calendar servers and calendar files. */
export interface CalendarTables {
	calendar_account: CalendarAccountTable;
	calendar_item: CalendarItemTable;
	calendar_proposal: CalendarProposalTable;
	calendar_note: CalendarNoteTable;
	/** the events of a run as its calendar file last had them, iCalendar text */
	calendar_file: { run: string; body: string };
}

/** A collection on a calendar server that follows the plan. */
export interface CalendarAccountTable {
	id: string;
	/** the address the keeper typed */
	server: string;
	user: string;
	/** the password, locked with a key that is not in the store */
	sealed: string;
	/** the collection's address and its name */
	collection: string;
	name: string;
	/** VTODO, or VEVENT where the server takes no to-dos */
	kind: string;
	scope: string;
	/** minutes between two looks */
	every: number;
	/** what the server calls its state as of the last look */
	token: string | null;
	created: string;
	/** the last look, whether it went well, and its sentence */
	looked: string | null;
	trouble: string | null;
	failures: number;
	/** not before this; null: not by itself any more */
	next: string | null;
	/** a question that waits for the keeper */
	question: string | null;
	/** held by a look under way until then */
	busy: string | null;
}

/** What is known of the object of one task, or of one service, on a server. */
export interface CalendarItemTable {
	account: string;
	uid: string;
	run: string;
	/** a task's id, or a service's */
	task: string;
	href: string;
	/** null: not written yet, or gone there */
	etag: string | null;
	/** the object as the server last held it */
	body: string | null;
	sequence: number;
	modified: string;
	timing: string;
	content: string;
	/** when it left the plan here; its tombstone stays */
	gone: string | null;
	/** of a single task: the amount it named, for the log */
	amount: string | null;
	medicine: string | null;
	/** of a service: its tasks with what each named, JSON; null: it is a single task */
	jobs: string | null;
	/** 1: the server holds something else than the plan wants */
	stale: number;
}

/** A time moved on a phone. */
export interface CalendarProposalTable {
	id: string;
	account: string;
	run: string;
	task: string;
	/** how the task was named and when it was due when it was moved */
	title: string;
	was: string;
	day: string;
	made: string;
	state: ProposalState;
	decided: string | null;
}

export type ProposalState = 'open' | 'accepted' | 'refused';

/** One line of what was sent, received, refused. */
export interface CalendarNoteTable {
	id: string;
	account: string;
	at: string;
	way: NoteWay;
	sentence: string;
}

export type NoteWay = 'sent' | 'received' | 'refused' | 'asked' | 'trouble';
