import type { Planned } from '../calendar/index.ts';
import type { Task } from '../planner/index.ts';
import type { Account } from './caldav-accounts.ts';
import type { Collection } from './caldav-collection.ts';
import type { Item } from './caldav-items.ts';
import type { Note } from './caldav-notes.ts';
import type { Store } from './store.ts';
import type { NoteWay } from './caldav-rows.ts';

/** One look at a server, on its way. */
export interface Look {
	store: Store;
	account: Account;
	collection: Collection;
	/** whole seconds, UTC */
	now: string;
	/** by UID */
	items: Map<string, Item>;
	/** the runs in the account's scope, with their plans, by run id; made anew after the log grew */
	planned: Map<string, Planned>;
	notes: Note[];
	/** something was logged: the plans are old */
	logged: boolean;
	/** something was written there or taken away */
	wrote: boolean;
	/** what the keeper agreed to beforehand */
	agreed: 'delete' | 'restore' | null;
}

/** Writes a line of what happened. */
export const note = (look: Look, way: NoteWay, sentence: string): void => {
	look.notes.push({ at: look.store.now(), way, sentence });
};

/** The task an item stands for, if the plan still has it. */
export const taskOf = (look: Look, { run, task }: Item): Task | undefined =>
	look.planned.get(run)?.plan.tasks.find(({ id }) => id === task);
