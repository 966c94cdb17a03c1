import { unreadable, type Dimension, type Problem, type Read } from '../../units/index.ts';

/** One typed field of a question. `name` is the option of the command line; `example` is what a field shows when empty. */
export interface Input<T = unknown> {
	label: string;
	example: string;
	/** the example of a keeper who measures in US units, where that differs */
	usExample?: string;
	read: (text: string) => Read<T>;
	/** text taken when nothing is typed; without it the field must be filled */
	otherwise?: string;
	/** what to add to the label of a field that may stay empty; absent: what is then taken */
	aside?: string;
	/** closed list of words */
	choices?: readonly string[];
	/** what a page says of each */
	choiceNames?: Readonly<Record<string, string>>;
	/** a gravity is typed here: the page shows what it means by each pair */
	gravity?: boolean;
}

/** One line of an answer for people. A number has its dimension, so that it can be shown in either system. */
export type Line =
	| {
			label: string;
			dimension: Dimension;
			value: number;
			/** what people of US units are told instead, where the label names a metric unit */
			us?: { label: string; value: number };
	  }
	/** a number without a unit, with the decimals worth showing */
	| { label: string; number: number; decimals: number }
	| { label: string; text: string };

export interface Answered {
	/** keys of the command line, full precision */
	json: Record<string, number | string>;
	lines: Line[];
}

export interface Question {
	/** unique, for the page */
	id: string;
	/** word of the command line; several questions may share one and differ by their options */
	ask: string;
	title: string;
	formula: string;
	source: string;
	range: string;
	/** what a reader must know before trusting the number */
	caveat?: string;
	inputs: Record<string, Input>;
	/** texts by input name. A problem carries the name of the input it belongs to, where it does. */
	answer: (texts: Readonly<Record<string, string | undefined>>) => Outcome;
}

export type Outcome = { ok: true; value: Answered } | { ok: false; problem: Problem; input: string | null };

type Values<I extends Record<string, Input>> = {
	[K in keyof I]: I[K] extends Input<infer T> ? T : never;
};

/** Ties typed inputs to a function of their values; the readers and the missing fields are handled here once. */
export function question<I extends Record<string, Input>>(
	about: Omit<Question, 'inputs' | 'answer'> & {
		inputs: I;
		solve: (values: Values<I>) => Read<Answered> | Outcome;
	}
): Question {
	const { solve, ...rest } = about;
	return {
		...rest,
		answer(texts) {
			const values: Record<string, unknown> = {};
			for (const [name, input] of Object.entries(about.inputs)) {
				const value = readInput(input, texts[name]);
				if (!value.ok) return { ...value, input: name };
				values[name] = value.value;
			}
			const outcome = solve(values as Values<I>);
			if (outcome.ok) return finite(outcome.value);
			const said = 'input' in outcome ? outcome.input : null;
			return { ...outcome, input: said ?? inputNamed(about.inputs, outcome.problem) };
		}
	};
}

/** Figures of the size of atoms or galaxies overflow; no answer is better than none that says so. */
function finite(answer: Answered): Outcome {
	const broken = Object.values(answer.json).some(
		(value) => typeof value === 'number' && !Number.isFinite(value)
	);
	if (!broken) return { ok: true, value: answer };
	const failure = unreadable('out-of-range', 'figures that no tank holds', 'figures of the size of a tank');
	return { ...failure, input: null };
}

function readInput(input: Input, typed: string | undefined): Read<unknown> {
	const text = typed === undefined || typed.trim() === '' ? input.otherwise : typed;
	if (text === undefined)
		return unreadable('missing', 'nothing', `${lowerFirst(input.label)} such as ${input.example}`);
	if (!input.choices) return input.read(text);
	const chosen = input.choices.find((choice) => choice.toLowerCase() === text.trim().toLowerCase());
	return chosen === undefined
		? unreadable('choice', text, `one of ${input.choices.join(', ')}`)
		: input.read(chosen);
}

const lowerFirst = (label: string): string =>
	/^.[a-z]/.test(label) && label !== 'pH' ? label.charAt(0).toLowerCase() + label.slice(1) : label;

/** A problem tied to the input it came from. */
export const blame = (input: string, failure: { ok: false; problem: Problem }): Outcome => ({
	...failure,
	input
});

/** A range's problem begins with the name of what is out of range: that is the input it belongs to. */
const inputNamed = (inputs: Record<string, Input>, problem: Problem): string | null =>
	Object.keys(inputs).find((name) => problem.expected.toLowerCase().startsWith(name.toLowerCase())) ?? null;

/** An answer with lines. */
export const answered = (json: Answered['json'], ...lines: Line[]): Read<Answered> => ({
	ok: true,
	value: { json, lines }
});
