import { medicines } from '../formulary/index.ts';
import { wayTitle, type Plan } from '../planner/index.ts';
import type { Fact, LogEntry, Run } from '../run/index.ts';
import { print } from '../units/index.ts';
import { bagLine } from './intake.ts';
import { formWords, measureOf } from './measures.ts';
import { signsLine } from './signs.ts';

/** What a fact may name, and how that is called. */
export interface Names {
	run: Run;
	plan: Pick<Plan, 'tasks'>;
}

/** How many, in words: 1 fish, 3 fish. */
const fishCount = (count: number) => `${Math.abs(count)} fish`;

export function lotName({ run }: Names, id: string | undefined): string {
	if (id === undefined) return 'All fish';
	const joined = run.log.flatMap((entry) => (entry.kind === 'fish' && entry.lot ? [entry.lot] : []));
	const lot = [...run.lots, ...joined].find((one) => one.id === id);
	const name = lot?.what || id;
	return name.charAt(0).toUpperCase() + name.slice(1);
}

export const medicineName = ({ run }: Names, id: string): string => {
	const medicine = run.medicines.find((one) => one.id === id);
	return medicine ? medicines[medicine.active].name : id;
};

/** A task as the plan words it; the plan may no longer have it. */
export const taskName = ({ plan }: Names, id: string): string =>
	plan.tasks.find((task) => task.id === id)?.text ?? id;

const amountText = ({ value, unit }: { value: number; unit: string }) => print(value, unit);

const equipmentWords: Record<string, readonly [on: string, off: string]> = {
	carbon: ['Carbon put in', 'Carbon taken out'],
	resin: ['Resin put in', 'Resin taken out'],
	uv: ['UV lamp switched on', 'UV lamp switched off'],
	skimmer: ['Skimmer switched on', 'Skimmer switched off'],
	ozone: ['Ozone switched on', 'Ozone switched off'],
	air: ['Air switched on', 'Air stopped'],
	heater: ['Heater switched on', 'Heater off or failed'],
	filter: ['Filter running', 'Filter stopped']
};

const small = (words: string) => words.charAt(0).toLowerCase() + words.slice(1);

/** What happened, as one plain sentence without its full stop. */
export function factWords(fact: Fact, names: Names): string {
	switch (fact.kind) {
		case 'done':
			return doneWords(fact, names);
		case 'missed':
			return `Not done: ${taskName(names, fact.task)}${fact.reason ? `, because ${fact.reason}` : ''}`;
		case 'reading':
			return readingWords(fact, names);
		case 'observation':
			return observationWords(fact, names);
		case 'loss':
			return `${lotName(names, fact.lot)}: ${fishCount(fact.count)} died`;
		case 'fish':
			return fishWords(fact, names);
		case 'change':
			return `Unplanned change of ${fact.fraction === undefined ? print(fact.litres, 'L') : print(fact.fraction * 100, '%')} with ${fact.source === 'fresh' ? 'fresh water' : names.run.source.name || 'new salt water'}`;
		case 'dose':
			return `Unplanned dose: ${medicineName(names, fact.medicine)} ${amountText(fact.amount)}`;
		case 'equipment':
			return equipmentWords[fact.what]?.[fact.on ? 0 : 1] ?? fact.what;
		case 'topoff':
			return `Topped off with ${print(fact.litres, 'L')} of fresh water`;
		case 'choice':
			return `Choice for ${taskName(names, fact.task)}: ${small(wayTitle(names, fact.task, fact.taken))}`;
	}
}

/** The plan restates the amount of a job that it knows; else it is said here. */
function doneWords({ task, amount }: Extract<Fact, { kind: 'done' }>, names: Names): string {
	const known = names.plan.tasks.some(
		({ id, state }) => id === task && state !== 'open' && state !== 'planned'
	);
	return `Done: ${taskName(names, task)}${amount && !known ? `, ${amountText(amount)}` : ''}`;
}

function readingWords(fact: Extract<Fact, { kind: 'reading' }>, { run }: Names): string {
	const { name, unit } = measureOf(run, fact.what);
	return `${name} read at ${print(fact.value, unit)}${fact.as ? `, ${formWords[fact.as]}` : ''}`;
}

function observationWords(fact: Extract<Fact, { kind: 'observation' }>, names: Names): string {
	const signs = fact.signs.filter((sign) => sign !== 'none');
	const parts = [
		signs.length > 0 ? signsLine(signs) : fact.signs.length > 0 ? 'no signs' : '',
		fact.appetite ? `food ${fact.appetite}` : '',
		fact.breathsPerMinute === undefined ? '' : `${fact.breathsPerMinute} breaths a minute`,
		fact.bag ? bagLine(fact.bag) : ''
	].filter(Boolean);
	return `${lotName(names, fact.lot)}: ${parts.join(', ') || 'looked at'}`;
}

function fishWords(fact: Extract<Fact, { kind: 'fish' }>, names: Names): string {
	const joins = fact.lot !== undefined || fact.count > 0;
	const credit = !joins ? '' : fact.restart ? '; credits restart' : '; credits kept';
	if (fact.lot) return `${fishCount(fact.lot.count)} joined: ${fact.lot.what || fact.lot.id}${credit}`;
	return `${lotName(names, fact.lotId)}: ${fishCount(fact.count)} ${joins ? 'joined' : 'left'}${credit}`;
}

/** The same for any entry: a correction says what it does to which entry. */
export function entryWords(entry: LogEntry, names: Names): string {
	if (entry.kind !== 'correct') return factWords(entry, names);
	return entry.as ? `Correction: ${factWords(entry.as, names)}` : 'Taken back';
}
