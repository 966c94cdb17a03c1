import type { BriefSlip, BriefWay } from '$lib/planner';
import { localInstant } from './local-instant';
import type { OutboxDesk } from './outbox.svelte';
import type { Held } from './outbox-shelf';

/** The ways of one run as the app worked them out, and what they were worked out from. */
interface Known {
	mark: string;
	at: string;
	slips: BriefSlip[];
}

const keptKey = 'lazaret-ways';
/** Ways older than this are worked out again when the app is asked for anything: an hour later a way may do less. */
const OLD_MS = 10 * 60_000;

/** The ways to go on of the runs of the day: asked for once a page shows an unanswered job, and kept for times without network. */
export class WayDesk {
	readonly #outbox: OutboxDesk;
	readonly #asked = new Set<string>();
	#known: Record<string, Known> = $state.raw({});
	/** runs whose ways could not be fetched the last time */
	#away: ReadonlySet<string> = $state.raw(new Set());

	constructor(outbox: OutboxDesk) {
		this.#outbox = outbox;
		this.#known = readKept();
	}

	/** Fetches the ways of a run unless they are known for `mark`, the state of the run that the page shows. */
	async look(run: string, mark: string, nowMs: number): Promise<void> {
		const known = this.#known[run];
		if (known?.mark === mark && nowMs - Date.parse(known.at) < OLD_MS) return;
		if (this.#asked.has(run)) return;
		this.#asked.add(run);
		try {
			const response = await fetch(`/api/runs/${encodeURIComponent(run)}/slips`, { cache: 'no-store' });
			const found = (await response.json()) as Partial<Omit<Known, 'mark'>>;
			if (!response.ok || !found.slips || !found.at) throw new Error('not the answer of this app');
			this.#known = { ...this.#known, [run]: { mark, at: found.at, slips: found.slips } };
			this.#away = new Set([...this.#away].filter((one) => one !== run));
			keep(this.#known);
		} catch {
			this.#away = new Set([...this.#away, run]);
		} finally {
			this.#asked.delete(run);
		}
	}

	/** The job's ways; null while they are being worked out, and where the job has none. */
	slip(run: string, task: string): BriefSlip | null {
		return this.#known[run]?.slips.find(({ id }) => id === task) ?? null;
	}

	/** When the ways of a run were worked out; empty: they never were. */
	at(run: string): string {
		return this.#known[run]?.at ?? '';
	}

	isAway(run: string): boolean {
		return this.#away.has(run);
	}

	/** A way of the job that was taken here and has not reached the app. */
	waiting(run: string, task: string): Held | undefined {
		const { waiting } = this.#outbox.state;
		return waiting.find(
			({ way, run: of, entry }) =>
				way &&
				of === run &&
				entry.task === task &&
				!waiting.some(({ entry: by }) => by.void && by.entry === entry.id)
		);
	}

	/** What was sent once may have been written: an entry is then taken back by another one, edits of the plan are not. */
	canTakeBack({ tried, way }: Held): boolean {
		return !tried || way?.does.edits.length === 0;
	}

	/** A way that still waits is as if it had never been taken. */
	takeBack(run: string, { entry }: Held): void {
		this.#outbox.takeBack(run, entry.id);
	}

	/** Takes a way as it is shown: kept at once, sent behind, and written only if it still does what it shows. */
	take(run: string, slip: BriefSlip, way: BriefWay): void {
		const { release, danger, edits } = way;
		const entry = { kind: 'choice', at: localInstant(Date.now()), task: slip.id, taken: way.taken };
		this.#outbox.append(run, entry, {
			title: way.title,
			text: slip.text,
			does: { release, danger, edits }
		});
	}
}

function keep(known: Record<string, Known>): void {
	try {
		localStorage.setItem(keptKey, JSON.stringify(known));
	} catch {
		// no room: without network the page then shows the jobs without their ways
	}
}

function readKept(): Record<string, Known> {
	try {
		return (JSON.parse(localStorage.getItem(keptKey) ?? 'null') as Record<string, Known> | null) ?? {};
	} catch {
		return {};
	}
}
