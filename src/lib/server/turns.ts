/** One run under way, and the one that follows for all who asked since it began. */
interface Turn {
	over: Promise<void>;
	next: Promise<unknown> | null;
}

/** Runs under way, by what they are for. */
export type Turns = Map<string, Turn>;

/**
 * Runs one at a time of each kind: whoever asks while one is under way shares the next, which begins when that one is
 * over. So what is shared was always begun after it was asked for. Trouble goes to all who share it.
 */
export function inTurn<T>(turns: Turns, kind: string, run: () => Promise<T>): Promise<T> {
	const turn = turns.get(kind);
	if (!turn) return begin(turns, kind, run);
	turn.next ??= turn.over.then(() => begin(turns, kind, run));
	return turn.next as Promise<T>;
}

function begin<T>(turns: Turns, kind: string, run: () => Promise<T>): Promise<T> {
	const running = run();
	const turn: Turn = { over: running.then(nothing, nothing), next: null };
	turns.set(kind, turn);
	void turn.over.then(() => {
		if (!turn.next) turns.delete(kind);
	});
	return running;
}

const nothing = () => undefined;
