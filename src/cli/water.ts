import { questions, type Outcome, type Question } from '../lib/water/index.ts';
import { clip, Refusal, type Answer } from './answer.ts';
import { readArguments, type Arguments } from './options.ts';

const asks = [...new Set(questions.map((question) => question.ask))];

/** `lazaret water QUESTION --name VALUE ...`: one line of JSON at full precision, or one sentence and exit 2. */
export function answerWater(args: readonly string[]): Answer {
	const [ask, ...rest] = args;
	if (ask === '--help' || ask === '-h') return { exit: 0, result: help() };
	const forms = questions.filter((question) => question.ask === ask?.toLowerCase());
	if (forms.length === 0)
		return refuse(`water: saw ${clip(ask ?? 'no question')}, expected one of ${asks.join(', ')}`);
	try {
		return answerOne(forms, readArguments(spelled(rest, forms), optionTable(forms)));
	} catch (error) {
		if (error instanceof Refusal) return refuse(`water ${ask}: ${error.message}`);
		throw error;
	}
}

const refuse = (say: string): Answer => ({ exit: 2, say });

function answerOne(forms: readonly Question[], typed: Arguments): Answer {
	const ask = forms[0]?.ask ?? '';
	if (typed.help) return { exit: 0, result: forms.map(usage).join('\n') };
	if (typed.words.length > 0) {
		return refuse(
			`water ${ask}: saw ${clip(typed.words.join(' '))} outside an option, expected --name VALUE`
		);
	}
	const form = formFor(forms, typed.options);
	if (typeof form === 'string') return refuse(`water ${ask}: ${form}`);
	const outcome = form.answer(typed.options);
	return outcome.ok
		? { exit: 0, result: JSON.stringify(outcome.value.json) }
		: refuse(`water ${ask}: ${sentence(outcome)}`);
}

function sentence(outcome: Outcome & { ok: false }): string {
	const { seen, expected } = outcome.problem;
	const place = outcome.input === null ? '' : `--${outcome.input}: `;
	return `${place}saw ${seen.trim() === '' ? 'nothing' : clip(seen)}, expected ${expected}`;
}

/** Options of every form of a question. */
const optionTable = (forms: readonly Question[]): Record<string, 'text'> =>
	Object.fromEntries(
		forms.flatMap((form) => Object.keys(form.inputs)).map((name) => [name, 'text'] as const)
	);

/** Option names in the case the table has them: `--ph` is `--pH`. */
function spelled(args: readonly string[], forms: readonly Question[]): string[] {
	const names = Object.keys(optionTable(forms));
	return args.map((arg) => {
		if (!arg.startsWith('--')) return arg;
		const [typed = '', ...value] = arg.slice(2).split('=');
		const name = names.find((known) => known.toLowerCase() === typed.toLowerCase());
		return name === undefined ? arg : [`--${name}`, ...value].join('=');
	});
}

/** The form whose options are the ones typed; else a sentence that says what is missing or does not go together. */
function formFor(forms: readonly Question[], options: Record<string, string>): Question | string {
	const [only, ...more] = forms;
	if (only && more.length === 0) return only;
	if (forms.every((form) => form.inputs.shape)) return shaped(forms, options);
	const typed = Object.keys(options);
	const fitting = forms.filter((form) => typed.every((name) => name in form.inputs));
	const ways = forms
		.map((form) =>
			Object.keys(form.inputs)
				.map((name) => `--${name}`)
				.join(' and ')
		)
		.join(', or ');
	if (fitting.length === 0)
		return `saw ${typed.map((name) => `--${name}`).join(' and ')} together, expected ${ways}`;
	const best = fitting.find((form) =>
		typed.some((name) => forms.every((other) => other === form || !(name in other.inputs)))
	);
	return (
		best ??
		fitting.find((form) => Object.keys(form.inputs).every((name) => name in options)) ??
		`saw too few options, expected ${ways}`
	);
}

function shaped(forms: readonly Question[], options: Record<string, string>): Question | string {
	const shapes = forms.map((form) => form.inputs.shape?.example ?? '');
	const wanted = options.shape?.trim().toLowerCase().replace(/ /g, '-');
	const form = forms[shapes.indexOf(wanted ?? '')];
	if (!form) return `--shape: saw ${clip(options.shape ?? 'nothing')}, expected one of ${shapes.join(', ')}`;
	options.shape = wanted ?? '';
	const stray = Object.keys(options).find((name) => !(name in form.inputs));
	if (stray === undefined) return form;
	return `saw --${stray} with --shape ${wanted}, expected ${Object.keys(form.inputs)
		.map((name) => `--${name}`)
		.join(', ')}`;
}

function usage(question: Question): string {
	const options = Object.entries(question.inputs).map(([name, input]) => {
		const option = `--${name} "${input.example}"`;
		return input.otherwise === undefined || name === 'shape' ? option : `[${option}]`;
	});
	return [
		`lazaret water ${question.ask} ${options.join(' ')}`,
		`  ${question.title}. ${question.formula}`,
		`  Source: ${question.source}. Range: ${question.range}.`,
		...(question.caveat ? [`  ${question.caveat}`] : [])
	].join('\n');
}

const help = (): string =>
	[
		'lazaret water QUESTION OPTIONS: one question about water, answered as JSON',
		'',
		...questions.map(usage)
	].join('\n');
