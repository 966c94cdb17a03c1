import { amountText, figure, wayTitle, type Plan } from '../planner/index.ts';
import type { Choice, Fact, Run } from '../run/index.ts';

/** One entry of the log as a line beside its job. */
export interface LoggedLine {
	id: string;
	at: string;
	kind: string;
	/** what was measured, of a reading */
	what?: string;
	/** what the keeper did or saw, in a few words */
	says: string;
	/** of a reading, the number as it was typed or stored */
	value?: number;
	/** it moved more than itself: taking the entry back would leave that behind */
	stays?: true;
}

/** A fact that was read from the log of a run. */
export function lineOf(fact: Fact, planned: { run: Run; plan: Plan }): LoggedLine {
	const { id, at, kind } = fact;
	const says = fact.kind === 'choice' ? chosen(wayTitle(planned, fact.task, fact.taken)) : saysOf(fact);
	const head = { id, at, kind, says };
	return fact.kind === 'reading' ? { ...head, what: fact.what, value: fact.value } : head;
}

export const spaced = (word: string) => word.replaceAll('-', ' ');

function saysOf(fact: Exclude<Fact, Choice>): string {
	switch (fact.kind) {
		case 'done':
			return fact.amount ? amountText(fact.amount) : 'done';
		case 'missed':
			return fact.reason ? `skipped: ${fact.reason}` : 'skipped';
		case 'reading':
			return figure(fact.value, 3);
		case 'observation':
			return seen(fact.signs, fact.appetite, fact.breathsPerMinute, fact.note);
		case 'loss':
			return `${fact.count} lost`;
		case 'change':
			return fact.litres === undefined
				? `changed ${figure(fact.fraction * 100, 0)} %`
				: `changed ${figure(fact.litres, 1)} L`;
		case 'dose':
			return `${fact.medicine} ${amountText(fact.amount)}`;
		case 'topoff':
			return `topped off ${figure(fact.litres, 1)} L`;
		case 'equipment':
			return `${fact.what} ${fact.on ? 'in' : 'out'}`;
		default:
			return spaced(fact.kind);
	}
}

/** A way that was chosen, as it was called where it was offered. */
export const chosen = (title: string): string => `chosen: ${title.charAt(0).toLowerCase()}${title.slice(1)}`;

/** A look in a few words: signs, appetite, breaths, note. */
export function seen(
	signs: readonly string[],
	appetite: string | undefined,
	breaths: number | undefined,
	note: string | undefined
): string {
	const shown = signs.map((sign) => (sign === 'none' ? 'no signs' : spaced(sign)));
	return (
		[
			...shown,
			appetite ? `food ${appetite}` : '',
			breaths === undefined ? '' : `${breaths} breaths a minute`,
			note ?? ''
		]
			.filter(Boolean)
			.join(', ') || 'looked'
	);
}
