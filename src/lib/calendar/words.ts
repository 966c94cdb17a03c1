import type { Task, TaskState } from '../planner/index.ts';

/** Four significant digits, without trailing zeros: for reading, never for further sums. */
export const figure = (value: number): string => String(Number(value.toPrecision(4)));

/** The figures of a job that stand beside its text: amount, rise, share of the water, minutes. */
export function figuresOf(task: Task): string[] {
	const lines: string[] = [];
	if (task.amount) lines.push(`Amount: ${figure(task.amount.value)} ${task.amount.unit}.`);
	if (task.raises) {
		const { from, to, unit } = task.raises;
		lines.push(`Raises ${figure(from)} to ${figure(to)} ${unit}.`);
	}
	if (task.fraction !== undefined) lines.push(`${figure(task.fraction * 100)} % of the water.`);
	if (task.minutes !== undefined) lines.push(`Takes ${figure(task.minutes)} min.`);
	return lines;
}

/** A job's text with its amount: as it stands where the text says it, else with the amount behind it. */
export function titleText({ text, amount }: Task): string {
	if (!amount || says(text, amount.value)) return text;
	return `${text}, ${figure(amount.value)} ${amount.unit}`;
}

/** Does the text hold this number, perhaps rounded to half a hundredth of it? */
const says = (text: string, value: number): boolean =>
	[...text.matchAll(/\d+(\.\d+)?/g)].some(([number]) => Math.abs(Number(number) - value) <= 0.005 * value);

/** How a logged job says so; planned and open jobs say nothing, so that the clock alone changes no text. */
const logged: Record<TaskState, { mark: string; sentence: string }> = {
	planned: { mark: '', sentence: '' },
	open: { mark: '', sentence: '' },
	done: { mark: '✓ ', sentence: 'Done.' },
	late: { mark: '✓ ', sentence: 'Done, late.' },
	partly: { mark: '✓ ', sentence: 'Done in part.' },
	missed: { mark: '✗ ', sentence: 'Missed.' }
};

/** Stands before the title of a job that was done or missed. */
export const markOf = (state: TaskState): string => logged[state].mark;
export const stateSentence = (state: TaskState): string => logged[state].sentence;

/** On every event and at the foot of every list. */
export const deference = 'The product label, a veterinarian and local law come first.';

/** A job's text in the middle of a sentence: "Change 34 L" becomes "change 34 L", "NH3 test" stays. */
export const lowered = (text: string): string =>
	/^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
