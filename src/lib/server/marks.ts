import { patiently } from './fault.ts';
import type { Store } from './store.ts';

/** What the store holds of the runs that were not deleted, told apart by marks instead of contents. */
export interface Marks {
	/** changes whenever anything does that a plan, a page or a feed could show */
	all: string;
	/** of each run, in the order they were made: changes with its document and its log */
	each: ReadonlyMap<string, string>;
}

/** The latest marks, and what the file had seen when they were asked for. */
const told = new WeakMap<Store, { changes: string; marks: Marks }>();

/**
 * The marks as of now: one question, and none where the file itself says that nothing was written since. The moments
 * of the last save and entry stand in them besides the numbers, since a backup put back may count up to the same.
 */
export async function marksOf(store: Store): Promise<Marks> {
	// before the question: what is written while it is asked makes it be asked again
	const changes = store.changes();
	const known = told.get(store);
	if (known && known.changes === changes) return known.marks;
	const rows = await patiently(() => query(store).execute());
	const each = new Map(
		rows.map((row) => [row.id, `${row.version} ${row.updated} ${row.entries} ${row.received ?? ''}`])
	);
	const marks = { all: JSON.stringify([...each]), each };
	if (changes !== null) told.set(store, { changes, marks });
	return marks;
}

const query = ({ db }: Store) =>
	db
		.selectFrom('run')
		.leftJoin('log', 'log.run', 'run.id')
		.select(['run.id', 'run.version', 'run.updated'])
		.select(({ fn }) => [
			fn.count<string>('log.id').as('entries'),
			fn.max<string | null>('log.received').as('received')
		])
		.where('run.deleted', 'is', null)
		.groupBy(['run.id', 'run.version', 'run.updated', 'run.created'])
		.orderBy('run.created')
		.orderBy('run.id');
