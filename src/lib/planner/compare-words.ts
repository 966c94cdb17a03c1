import type { Day } from '../run/index.ts';
import { releaseBetween, type Comparison, type TaskNote } from './compare.ts';
import type { Amount, Finding } from './plan.ts';
import { amountText, figure } from './words.ts';

/** How a reader calls a phase and a medicine; their ids where nobody says. */
export interface Names {
	phase: (id: string) => string;
	medicine: (id: string) => string;
}

/** A comparison in words: one heading each, short lines under it. Days are written `YYYY-MM-DD`. */
export interface ComparisonWords {
	release: string;
	/** one for each phase that counts credit */
	credit: string[];
	water: string;
	medicines: string[];
	findings: string[];
	/** every task that moved, came, went, or has another amount or state, in order of time */
	tasks: string[];
}

const ids: Names = { phase: (id) => id, medicine: (id) => id };

/** The only home of the words for what differs between two plans. */
export const compareWords = (one: Comparison, names: Names = ids): ComparisonWords => ({
	release: releaseWords(one.release),
	credit: one.phases.flatMap((phase) => creditWords(phase, names) ?? []),
	water: one.waterL === 0 ? 'as planned' : `${figure(Math.abs(one.waterL), 0)} L ${moreOrLess(one.waterL)}`,
	medicines: one.medicines.map(
		({ id, value, total, unit }) =>
			`${names.medicine(id)} ${amountText({ value: Math.abs(value), unit })} ${moreOrLess(value)}, ${amountText({ value: total, unit })} in all`
	),
	findings: findingWords(one.findings),
	tasks: taskWords(one)
});

/** A finding that only says something else now is one line. */
function findingWords({ come, gone }: Comparison['findings']): string[] {
	const sameRule = (a: Finding, b: Finding) => a.rule === b.rule && a.severity === b.severity;
	return [
		...come.map((finding) => {
			const says = gone.some((other) => sameRule(other, finding)) ? 'now' : 'new';
			return `${says}, ${finding.severity}: ${finding.message}`;
		}),
		...gone
			.filter((finding) => !come.some((other) => sameRule(other, finding)))
			.map(({ severity, message }) => `gone, ${severity}: ${message}`)
	];
}

const moreOrLess = (value: number) => (value > 0 ? 'more' : 'less');
const days = (count: number) => `${figure(count, 1)} day${Math.abs(count) === 1 ? '' : 's'}`;

function releaseWords({ from, to, daysLater }: Comparison['release']): string {
	if (from === to) return to === null ? 'has no day, now as before' : `${to}, as planned`;
	if (to === null) return `has no day any more, it was ${from}`;
	if (daysLater === null) return `${to}, where there was no day before`;
	return `${to}, ${days(Math.abs(daysLater))} ${daysLater > 0 ? 'later' : 'sooner'}`;
}

/** The same against a plan of before: `planned` is its release. */
export function releaseSince(planned: Day | null, to: Day | null): string {
	const says = releaseWords(releaseBetween(planned, to));
	return /(later|sooner)$/.test(says) ? `${says} than planned` : says;
}

function creditWords({ id, earned, ends }: Comparison['phases'][number], names: Names): string | null {
	if (!earned) return null;
	const end = ends.to === null ? 'no end in sight' : `ends ${ends.to}`;
	const was = ends.from === ends.to ? '' : `, was ${ends.from ?? 'without an end'}`;
	const days = (count: number) => figure(count, 2);
	const sum =
		earned.from === earned.to
			? `${days(earned.to)} d earned`
			: `${days(earned.to)} d earned instead of ${days(earned.from)}`;
	return `${names.phase(id)}: ${sum}, ${end}${was}`;
}

const amountOr = (amount: Amount | null) => (amount ? amountText(amount) : 'no amount');

function taskWords(one: Comparison): string[] {
	const lines: { note: TaskNote; says: string }[] = [
		...one.moved.map((note) => ({
			note,
			says: `from ${note.at.from.date} ${note.at.from.time} to ${note.at.to.date} ${note.at.to.time}`
		})),
		...one.amounts.map((note) => ({
			note,
			says: `${amountOr(note.amount.to)} instead of ${amountOr(note.amount.from)}`
		})),
		...one.states.map((note) => ({ note, says: `${note.state.to}, was ${note.state.from}` })),
		...one.come.map((note) => ({ note, says: 'new' })),
		...one.gone.map((note) => ({ note, says: 'falls away' }))
	];
	const byTask = Map.groupBy(lines, ({ note }) => note.id);
	return [...byTask.values()]
		.map((own) => ({ note: own[0]!.note, says: own.map(({ says }) => says).join('; ') }))
		.sort((a, b) => stamp(a.note).localeCompare(stamp(b.note)))
		.map(({ note, says }) => `${note.date} ${note.time}, ${note.text}: ${says}`);
}

const stamp = ({ date, time, id }: TaskNote) => `${date} ${time} ${id}`;
