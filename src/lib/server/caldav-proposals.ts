import { randomUUID } from 'node:crypto';
import { tasksBehind } from './caldav-items.ts';
import { judgeMove } from './caldav-move.ts';
import { keepNotes } from './caldav-notes.ts';
import { saveEdits } from './edits.ts';
import type { Store } from './store.ts';
import type { CalendarProposalTable } from './caldav-rows.ts';

/** A time moved on a phone that waits for a yes or no, with what it would change as of now. */
export interface Proposal {
	id: string;
	account: string;
	run: string;
	task: string;
	/** the tasks it would move: itself, or those of a service */
	tasks: string[];
	title: string;
	was: string;
	day: string;
	made: string;
	/** null: it can be accepted */
	refusal: string | null;
	changes: string[];
}

/** Keeps a wish; a newer one for the same task takes the place of an open one. */
export async function propose(
	store: Store,
	wish: Pick<CalendarProposalTable, 'account' | 'run' | 'task' | 'title' | 'was' | 'day'>
): Promise<void> {
	const { account, run, task } = wish;
	await store.db.transaction().execute(async (trx) => {
		await trx
			.deleteFrom('calendar_proposal')
			.where('account', '=', account)
			.where('run', '=', run)
			.where('task', '=', task)
			.where('state', '=', 'open')
			.execute();
		await trx
			.insertInto('calendar_proposal')
			.values({ ...wish, id: randomUUID(), made: store.now(), state: 'open', decided: null })
			.execute();
	});
}

/** The open ones, the oldest first, each judged against the plan as it is now. */
export async function openProposals(store: Store): Promise<Proposal[]> {
	const rows = await store.db
		.selectFrom('calendar_proposal')
		.selectAll()
		.where('state', '=', 'open')
		.orderBy('made')
		.orderBy('id')
		.execute();
	const now = `${store.now().slice(0, 19)}Z`;
	const judged: Proposal[] = [];
	for (const { state: _state, decided: _decided, ...row } of rows) {
		const wish = { ...row, tasks: await tasksBehind(store, row) };
		const verdict = await judgeMove(store, wish, now);
		judged.push({
			...wish,
			refusal: verdict.allowed ? null : verdict.sentence,
			changes: verdict.allowed ? verdict.changes : []
		});
	}
	return judged;
}

export type Decided = { kind: 'done' } | { kind: 'refused'; sentence: string } | { kind: 'none' };

/** Writes an accepted move into the plan, or drops a refused one. What can no longer be done is said. */
export async function decide(store: Store, id: string, accept: boolean, who: string): Promise<Decided> {
	const row = await store.db
		.selectFrom('calendar_proposal')
		.selectAll()
		.where('id', '=', id)
		.where('state', '=', 'open')
		.executeTakeFirst();
	if (!row) return { kind: 'none' };
	if (accept) {
		const wish = { ...row, tasks: await tasksBehind(store, row) };
		const judged = await judgeMove(store, wish, `${store.now().slice(0, 19)}Z`);
		if (!judged.allowed) return { kind: 'refused', sentence: judged.sentence };
		const save = { id: `phone-${id}`, base: judged.version, edits: judged.edits, who };
		const saved = await saveEdits(store, row.run, save);
		if (saved.kind !== 'saved')
			return { kind: 'refused', sentence: 'The plan was changed meanwhile: look at it and try again.' };
	}
	const now = store.now();
	await store.db
		.updateTable('calendar_proposal')
		.set({ state: accept ? 'accepted' : 'refused', decided: now })
		.where('id', '=', id)
		.execute();
	const verb = accept ? 'accepted' : 'refused';
	const sentence = `${row.title}: the move to ${row.day.replace('T', ' at ')} was ${verb}.`;
	await keepNotes(store, row.account, [{ at: now, way: accept ? 'received' : 'refused', sentence }]);
	return { kind: 'done' };
}
