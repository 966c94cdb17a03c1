import { fullDay } from './dates.ts';
import { clockFrom, says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

interface Entry {
	day: number;
	time: string;
	words: string;
}

/** Everything the keeper wrote down, in her own order. */
export class PaperLog {
	readonly #entries: Entry[] = [];

	write(day: number, time: string, words: string): void {
		this.#entries.push({ day, time, words });
	}

	/** The page of the log: a part for each day, and how many entries there are. */
	parts(): Part[] {
		const days = [...new Set(this.#entries.map(({ day }) => day))];
		return days.map((day) => ({
			where: `section[aria-label="${fullDay(day)}"]`,
			says: [
				says`${fullDay(day)}`,
				...this.#entries
					.filter((entry) => entry.day === day)
					.flatMap(({ time, words }) => linesOf(time, words))
			]
		}));
	}

	count = (): Said => says`${this.#entries.length} entries`;
}

/** What can be done with an entry names it once more; a choice can only be taken back. */
const linesOf = (time: string, words: string): Said[] => [
	says`${clockFrom(time)}`,
	...(/\d/.test(words)
		? [
				says`${words}`,
				...(words.startsWith('Choice') ? [] : [says`Correct: ${words}`]),
				says`Take back: ${words}`
			]
		: [])
];
