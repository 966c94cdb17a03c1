import {
	planToCsv,
	planToIcs,
	planToText,
	readIcs,
	type CalendarEvent,
	type IcsOptions
} from '../lib/calendar/index.ts';
import { offerRepairs, type Plan } from '../lib/planner/index.ts';
import { readPlanFile, type Run } from '../lib/run/index.ts';
import { refuse, Refusal, type Answer } from './answer.ts';
import { choiceOptions, choicesOf } from './choices.ts';
import { nameOf, readText, replaceFile } from './file.ts';
import { readNow } from './instant.ts';
import { onlyFile, readArguments } from './options.ts';
import { help } from './help.ts';

/** Reads a plan file and marches it. Refuses with the place of the first thing that cannot be read. */
export function planOf(file: string, now: string): { run: Run; plan: Plan } {
	const read = readPlanFile(readText(file));
	if (!read.ok) throw new Refusal(`${nameOf(file)}: ${read.sentence}`);
	const { document, run } = read.value;
	return { run, plan: offerRepairs(document, now, null) };
}

/** `lazaret plan FILE`. */
export function plan(args: readonly string[]): Answer {
	const {
		words,
		options,
		help: asked
	} = readArguments(args, {
		as: ['text', 'json', 'csv', 'ics'],
		now: 'text',
		out: 'text',
		since: 'text',
		...choiceOptions
	});
	if (asked) return { exit: 0, result: help() };
	const file = onlyFile(words, 'plan');
	const as = options.as ?? 'text';
	for (const name of ['since', ...Object.keys(choiceOptions)]) {
		if (options[name] !== undefined && as !== 'ics')
			refuse({ place: `--${name}`, saw: `--as ${as}`, expected: '--as ics with it' });
	}
	const now = readNow(options.now);
	const since = options.since === undefined ? undefined : eventsOf(options.since);
	const made = planOf(file, now);
	const ics = { now, since, ...choicesOf(options) };
	const result = print(as, made.run, made.plan, ics);
	if (options.out === undefined) return { exit: 0, result };
	replaceFile(options.out, result.endsWith('\n') ? result : `${result}\n`);
	return { exit: 0, say: summary(options.out, made.plan) };
}

function eventsOf(file: string): CalendarEvent[] {
	const events = readIcs(readText(file));
	if (events.ok) return events.value;
	const { seen, expected } = events.problem;
	return refuse({ file: nameOf(file), place: '--since', saw: seen || 'an empty file', expected });
}

function print(as: string, run: Run, made: Plan, ics: IcsOptions): string {
	if (as === 'json') return JSON.stringify(made, null, 2);
	if (as === 'csv') return planToCsv(made);
	if (as === 'ics') return planToIcs(run, made, ics);
	return planToText(run, made);
}

function summary(out: string, made: Plan): string {
	const stops = made.findings.filter((finding) => finding.severity === 'stop').length;
	const release = made.release === null ? 'no release' : `release ${made.release}`;
	return `${out}: ${made.tasks.length} tasks, ${release}, ${stops} ${stops === 1 ? 'stop' : 'stops'}`;
}
