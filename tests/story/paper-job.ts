import type { Part } from './sweep.ts';
import { clockFrom, says, type Said } from './says.ts';

/** Minutes a job takes, wiping down included (judgment, no source). A test is shared by what it measures. */
export const minutesFor = {
	look: 5,
	test: 10,
	change: 30,
	washOut: 45,
	dose: 10,
	equipment: 5,
	takeIn: 60,
	release: 30,
	strip: 15
} as const;

/** What the log says of a job, and from which time on. */
interface Answer {
	/** `3.6 mL`, `0.18 mg/L`, `done`, `no signs` */
	shows: string;
	time: string;
	/** a reading shows itself on the button, all else its time */
	reading: boolean;
	/** it can still be taken back by one touch */
	undo: boolean;
}

/** One line of the day as paper has it. */
export interface PaperJob {
	key: string;
	/** in words, with the amount */
	text: Said;
	/** the figures it leans on; null: it leans on none */
	line: Said | null;
	minutes: number;
	answer: Answer | null;
	/** what its reading came to, while the page knows */
	verdict: Said[];
}

const hasFigure = (said: Said) => /\d/.test(said.text);

/** Everything with a figure in the line of a job. */
export function partOf({ key, text, line, answer, verdict }: PaperJob): Part {
	const lines: Said[] = [];
	if (hasFigure(text)) lines.push(text);
	if (line && hasFigure(line)) lines.push(line);
	if (answer) lines.push(...answerLines(answer), ...verdict);
	else if (hasFigure(text)) lines.push(spoken(text));
	return { where: `li.job[data-task="${key}"]`, says: lines };
}

/** What is heard behind the word of a button. */
const spoken = (text: Said): Said => ({
	text: `: ${text.text}`,
	fits: (line) => line.startsWith(': ') && text.fits(line.slice(2))
});

function answerLines({ shows, time, reading, undo }: Answer): Said[] {
	const figures = /\d/.test(shows);
	return [
		reading ? says`${shows}` : says`${clockFrom(time)}`,
		...(figures ? [says`logged: ${shows}`] : []),
		...(undo ? [says`Logged ${shows}, ${clockFrom(time)}.`] : [])
	];
}
