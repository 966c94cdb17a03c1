import type { Mark, Sourced } from './row.ts';

/** The three exact source texts of a value that nobody published. */
export const unsourced = {
	CP: 'common practice, no source',
	J: 'judgment, no source',
	M: 'from memory'
} as const satisfies Record<Exclude<Mark, 'P'>, string>;

const marked =
	(mark: Exclude<Mark, 'P'>) =>
	<const T>(value: T, note?: string): Sourced<T> =>
		note === undefined
			? { value, mark, source: unsourced[mark] }
			: { value, mark, source: unsourced[mark], note };

/** A value seen in the publication that `source` names. */
export const published = <const T>(value: T, source: string, note?: string): Sourced<T> =>
	note === undefined ? { value, mark: 'P', source } : { value, mark: 'P', source, note };

/** What keepers go by, without a source. */
export const practice = marked('CP');
/** This project's own judgment; `note` says what it leans on. */
export const judged = marked('J');
/** Recalled, not looked up. */
export const remembered = marked('M');
