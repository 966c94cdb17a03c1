/** What a verb comes to: 0 done, 1 a check found a stop, 2 nothing could be made of the input. */
export interface Answer {
	exit: 0 | 1 | 2;
	/** the result, for stdout; without its last newline or with it, never two */
	result?: string;
	/** one sentence for stderr */
	say?: string;
}

/** Where a sentence points: the file, the place in it, what stands there and what would have been understood. */
export interface Trouble {
	file?: string;
	place?: string;
	saw: string;
	expected: string;
}

/** Expected trouble on the way to an answer. Thrown inside a verb, so that it needs no threading; `cli.ts` turns it into exit 2. */
export class Refusal extends Error {
	constructor(sentence: string) {
		super(oneLine(sentence));
		this.name = 'Refusal';
	}
}

/** `FILE: place: saw X, expected Y`. */
export function refuse(trouble: Trouble): never {
	const where = [trouble.file, trouble.place].filter(Boolean).map((part) => `${part}: `);
	throw new Refusal(`${where.join('')}saw ${clip(trouble.saw)}, expected ${trouble.expected}`);
}

// all controls and the line separators: what a terminal could take for a line's end or a command
const controls = /[\p{Cc}\u2028\u2029]+/gu;

/** One printable line: a terminal's control characters and line ends become spaces. */
export const oneLine = (text: string): string => text.replace(controls, ' ').trim();

/** Keeps a sentence readable when what was seen is a whole file. */
export const clip = (text: string, most = 80): string => {
	const line = oneLine(text);
	return line.length > most ? `${[...line].slice(0, most - 1).join('')}…` : line;
};
