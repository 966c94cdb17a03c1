/** Trouble with something a person typed: data, never an exception. */
export interface Problem {
	code: string;
	/** the text as it was typed */
	seen: string;
	/** one clause: what would have been understood */
	expected: string;
}

export type Read<T> = { ok: true; value: T } | { ok: false; problem: Problem };

export const read = <T>(value: T): Read<T> => ({ ok: true, value });

export const unreadable = (
	code: string,
	seen: string,
	expected: string
): { ok: false; problem: Problem } => ({
	ok: false,
	problem: { code, seen, expected }
});
