import { eventsToIcs, plansToIcs, readIcs, type CalendarEvent, type Choices } from '../calendar/index.ts';
import { plannedRuns } from './planned.ts';
import type { Store } from './store.ts';
import { taskAddress } from './task-address.ts';

export interface FileWish {
	/** a stored run's id; absent: every run */
	run?: string;
	choices: Choices;
	/** where the app is reached, for the links back */
	origin: string;
}

/** A calendar file to be saved and imported. */
export interface CalendarFile {
	name: string;
	text: string;
}

/**
 * One run, or every run, as an iCalendar file. What was exported before is remembered: an unchanged task keeps its
 * stamps, a moved one outranks its old self, one that left the plan is written as cancelled. Null: no such run.
 */
export async function calendarFile(store: Store, wish: FileWish): Promise<CalendarFile | null> {
	const now = `${store.now().slice(0, 19)}Z`;
	const planned = (await plannedRuns(store, now)).filter(({ run }) => !wish.run || run.id === wish.run);
	if (wish.run !== undefined && planned.length === 0) return null;
	const ids = planned.map(({ run }) => run.id);
	const since = await writtenBefore(store, ids);
	const name = wish.run === undefined ? 'Lazaret' : (planned[0]?.run.name ?? 'Lazaret');
	const link = taskAddress(wish.origin);
	const text = plansToIcs(planned, { ...wish.choices, now, since, name, link });
	await remember(store, ids, since, eventsIn(text));
	return { name, text };
}

const eventsIn = (text: string): CalendarEvent[] => {
	const read = readIcs(text);
	return read.ok ? read.value : [];
};

async function writtenBefore(store: Store, runs: readonly string[]): Promise<CalendarEvent[]> {
	if (runs.length === 0) return [];
	const rows = await store.db.selectFrom('calendar_file').select('body').where('run', 'in', runs).execute();
	return rows.flatMap(({ body }) => eventsIn(body));
}

/** Also keeps what this file left out by choice, for the next one that does not. */
async function remember(
	store: Store,
	runs: readonly string[],
	before: readonly CalendarEvent[],
	written: readonly CalendarEvent[]
): Promise<void> {
	const known = new Map([...before, ...written].map((event) => [event.uid, event]));
	for (const run of runs) {
		const own = [...known.values()].filter(({ uid }) => uid.endsWith(`@${run}`));
		const row = { run, body: eventsToIcs(own, '') };
		await store.db
			.insertInto('calendar_file')
			.values(row)
			.onConflict((conflict) => conflict.column('run').doUpdateSet(row))
			.execute();
	}
}
