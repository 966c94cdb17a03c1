import type { Planned } from '../calendar/index.ts';
import type { Task } from '../planner/index.ts';
import { readLog, type Fact } from '../run/index.ts';
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

/** The tasks an item stands for, as far as the plan still has them. */
export const tasksOf = (look: Look, { run, jobs }: Item): Task[] =>
	(look.planned.get(run)?.plan.tasks ?? []).filter(({ id }) => jobs.some(({ task }) => task === id));

/** What the log says of a task; wanting to give a dose is not having given it. */
export const answersTo = (look: Look, run: string, task: string): Fact[] =>
	readLog(look.planned.get(run)?.run.log ?? []).filter(
		(entry) => 'task' in entry && entry.task === task && (entry.kind !== 'choice' || entry.taken === 'skip')
	);

/** An instant on the clock of the item's run, `2026-11-25 14:45`. */
export const wallOf = (look: Look, { run }: Item, at: string): string =>
	new Intl.DateTimeFormat('sv-SE', {
		dateStyle: 'short',
		timeStyle: 'short',
		timeZone: look.planned.get(run)?.run.timeZone ?? 'UTC'
	}).format(new Date(at));
