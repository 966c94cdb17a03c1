import type { Transaction } from 'kysely';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { z } from 'zod';
import { dayIn, eachSlip, type Way } from '../planner/index.ts';
import { same, takens } from '../run/index.ts';
import type { Document } from './document.ts';
import { lockedRun, saveEditsIn } from './edits.ts';
import { idSchema } from './entries.ts';
import { patiently } from './fault.ts';
import { appendLogIn, readLog, type Entry } from './log.ts';
import { getRun, type StoredRun } from './runs.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/** A way as somebody saw it and took it, maybe hours ago and without network. */
export const takenWaySchema = z.strictObject({
	/** of the entry it writes and of the save, made by the client: sent again it changes nothing */
	id: idSchema,
	/** when it was taken */
	at: z.iso.datetime({ offset: true }),
	task: z.string().min(1).max(200),
	taken: z.enum(takens),
	/** what it was shown to do */
	shown: z.strictObject({
		release: z.string().max(10).nullable(),
		danger: z.string().max(4000).nullable(),
		edits: z.array(z.unknown()).max(2000)
	})
});
export type TakenWay = z.infer<typeof takenWaySchema>;

/** `moved-on`: the run is another than it was when the way was shown, and nothing was written. */
export type TookWay =
	| { kind: 'taken'; added: number }
	| { kind: 'moved-on'; sentence: string }
	| { kind: 'refused'; sentence: string }
	| { kind: 'keeper-only' }
	| { kind: 'no-run' };

/** A device's clock may run ahead of this one's by so much. */
const AHEAD_MS = 10 * 60_000;
/** Whoever writes at the same moment makes it look once more. */
const MOST_TRIES = 4;

/**
 * Writes a way once: its edits and its entry together, or nothing. It is worked out again from what the store holds, as
 * of the moment it was taken and, where more was logged since, as of the last of that; unless it still does what was
 * shown, nothing is written. `mayChange`: whoever asks may also change the plan.
 */
export async function takeWay(
	store: Store,
	run: string,
	asked: TakenWay,
	{ who, mayChange }: { who: string; mayChange: boolean }
): Promise<TookWay> {
	if (Date.parse(asked.at) > Date.parse(store.now()) + AHEAD_MS)
		return { kind: 'refused', sentence: 'The clock of the device it was taken on runs ahead.' };
	for (let tries = 0; tries < MOST_TRIES; tries++) {
		const stored = await getRun(store, run);
		if (!stored || stored.deleted !== null) return { kind: 'no-run' };
		const log = await readLog(store, run);
		if (log.some(({ id }) => id === asked.id)) return { kind: 'taken', added: 0 };
		const way = await stillSo(stored, log, asked, Date.parse(store.now()));
		if (typeof way === 'string') return { kind: 'moved-on', sentence: way };
		if (way.edits.length > 0 && !mayChange) return { kind: 'keeper-only' };
		const took = await write(store, stored, log, { asked, way, who });
		if (took) return took;
		await nextTurn();
	}
	return { kind: 'moved-on', sentence: 'Others are writing into this run at this moment.' };
}

/** The way, if it still does what was shown; else the sentence that says what became of it. */
async function stillSo(
	stored: StoredRun,
	log: readonly Entry[],
	asked: TakenWay,
	nowMs: number
): Promise<Way | string> {
	const whole = { ...stored.document, id: stored.id, log };
	const takenMs = Date.parse(asked.at);
	const lastMs = Math.min(nowMs + AHEAD_MS, Date.parse(log.at(-1)?.at ?? asked.at));
	let first: Way | null = null;
	for (const momentMs of lastMs > takenMs ? [takenMs, lastMs] : [takenMs]) {
		const way = wayAt(whole, new Date(momentMs).toISOString(), asked);
		if (typeof way === 'string') return way;
		first ??= way;
		await nextTurn();
	}
	return first ?? 'It has no way to go on.';
}

function wayAt(whole: Document, moment: string, { task, taken, shown }: TakenWay): Way | string {
	const today = dayIn(String(whole.timeZone), moment);
	const [slip] = eachSlip(whole, moment, today, task);
	if (!slip) return 'This job has its answer meanwhile, or is not in the plan any more.';
	const way = slip.ways.find((one) => one.taken === taken);
	if (!way) return 'This way is not among those there are now.';
	const { release } = way.comparison;
	if (way.danger !== shown.danger)
		return way.danger === null ? 'It is safe now, and was not.' : `It is not safe now: ${way.danger}`;
	if (release.to !== shown.release)
		return `It would now lead to ${dayOr(release.to)}; shown was ${dayOr(shown.release)}.`;
	// as it came: what JSON leaves out is not there
	const edits: unknown = JSON.parse(JSON.stringify(way.edits));
	return same(edits, shown.edits) ? way : 'It would now move other jobs than was shown.';
}

const dayOr = (day: string | null) => (day === null ? 'no day of release' : `release on ${day}`);

/** Thrown to undo what a transaction has written so far. */
class Undo extends Error {
	readonly took: TookWay;
	constructor(took: TookWay) {
		super('nothing is written');
		this.took = took;
	}
}

/** Null when somebody wrote since the look. */
async function write(
	store: Store,
	stored: StoredRun,
	log: readonly Entry[],
	{ asked, way, who }: { asked: TakenWay; way: Way; who: string }
): Promise<TookWay | null> {
	const { id, at } = asked;
	const { edits } = way;
	const entries = way.entries.map((entry) => ({ ...entry, id, at }));
	try {
		return await patiently(() =>
			store.db.transaction().execute(async (trx): Promise<TookWay | null> => {
				const row = await lockedRun(store, trx, stored.id);
				if (row?.version !== stored.version || (await countOf(trx, stored.id)) !== log.length) return null;
				if (edits.length > 0) {
					const saved = await saveEditsIn(store, trx, stored.id, { id, base: stored.version, edits, who });
					if (saved.kind === 'refused' || saved.kind === 'clash')
						throw new Undo({ kind: 'refused', sentence: saved.sentence });
				}
				const logged = await appendLogIn(store, trx, stored.id, entries, who);
				if (logged && !logged.ok) throw new Undo({ kind: 'refused', sentence: logged.sentence });
				return { kind: 'taken', added: logged?.added ?? 0 };
			})
		);
	} catch (thrown) {
		if (thrown instanceof Undo) return thrown.took;
		throw thrown;
	}
}

async function countOf(trx: Transaction<Tables>, run: string): Promise<number> {
	const { held } = await trx
		.selectFrom('log')
		.select((e) => e.fn.countAll().as('held'))
		.where('run', '=', run)
		.executeTakeFirstOrThrow();
	return Number(held);
}
