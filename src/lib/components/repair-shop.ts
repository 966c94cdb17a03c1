import type { Finding } from '$lib/planner';

/** A plan to find repairs for, as `offerRepairs` takes it. */
export interface RepairWish {
	document: unknown;
	now: string;
	today: string;
}

/**
 * Tries repairs beside the page, so that typing never waits for them: each costs a march of its own. One wish is
 * worked on at a time; of those that come meanwhile only the latest is kept.
 */
export class RepairShop {
	#worker: Worker | undefined;
	#busy = false;
	#next: { wish: RepairWish; done: (findings: Finding[] | null) => void } | undefined;

	/** The findings with the repairs that were proved to work; null where a later wish came before this one's turn. */
	try(wish: RepairWish): Promise<Finding[] | null> {
		return new Promise((done) => {
			this.#next?.done(null);
			this.#next = { wish, done };
			this.#turn();
		});
	}

	#turn() {
		if (this.#busy || !this.#next) return;
		const { wish, done } = this.#next;
		this.#next = undefined;
		this.#busy = true;
		this.#worker ??= new Worker(new URL('./repairs.worker.ts', import.meta.url), { type: 'module' });
		this.#worker.onmessage = ({ data }: MessageEvent<Finding[]>) => {
			this.#busy = false;
			done(data);
			this.#turn();
		};
		this.#worker.postMessage(wish);
	}
}
