import { amountText, figure } from '../planner/index.ts';
import type { Fact } from '../run/index.ts';

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

/** A fact that was read from the log. */
export function lineOf(fact: Fact): LoggedLine {
	const { id, at, kind } = fact;
	const head = { id, at, kind, says: saysOf(fact) };
	return fact.kind === 'reading' ? { ...head, what: fact.what, value: fact.value } : head;
}

const spaced = (word: string) => word.replaceAll('-', ' ');

function saysOf(fact: Fact): string {
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
		case 'choice':
			return chosen(fact.taken);
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

const ways: Readonly<Record<string, string>> = {
	now: 'do it now',
	'now-shift': 'do it now, the rest later',
	skip: 'leave it out',
	restart: 'begin again'
};

/** A way that was chosen, in a few words. */
export const chosen = (taken: string): string => `chosen: ${ways[taken] ?? spaced(taken)}`;

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
