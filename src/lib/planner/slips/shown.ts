import type { Day, Edit, Taken } from '../../run/index.ts';
import { compareWords, releaseSince, type ComparisonWords, type Names } from '../compare-words.ts';
import { amountText } from '../words.ts';
import type { ChoiceEntry, Slip, Withheld } from './slip.ts';

/** A way to go on as a page shows it: words instead of plans. */
export interface ShownWay {
	taken: Taken;
	title: string;
	proposed: boolean;
	danger: string | null;
	because: string;
	source: string;
	entries: ChoiceEntry[];
	edits: Edit[];
	/** what then has to be measured out; empty where there is nothing, or it cannot be figured */
	amount: string;
	/** the day of release before the first of the jobs that are open or were missed; null: there was none */
	planned: Day | null;
	/** the day of release the way leads to; null: none in sight */
	release: Day | null;
	effects: ComparisonWords;
}

/** A slip as a page shows it. */
export interface ShownSlip {
	/** the task's */
	id: string;
	text: string;
	date: string;
	time: string;
	/** nobody answered for it, so it may have been done; else it is known to be missed */
	open: boolean;
	hoursLate: number;
	reason: string;
	ways: ShownWay[];
	withheld: readonly Withheld[];
}

/** Slips in words; `names` is how the reader calls phases and medicines. */
export const shownSlips = (slips: readonly Slip[], names: Names): ShownSlip[] =>
	slips.map(({ task, hoursLate, proposed, reason, ways, withheld }) => ({
		id: task.id,
		text: task.text,
		date: task.date,
		time: task.time,
		open: task.state === 'open',
		hoursLate,
		reason,
		withheld,
		ways: ways.map(
			({ taken, title, danger, because, source, entries, edits, amount, release, comparison }) => ({
				taken,
				title,
				proposed: taken === proposed,
				danger,
				because,
				source,
				entries,
				edits,
				amount: amount ? amountText(amount) : '',
				planned: release.from,
				release: release.to,
				effects: { ...compareWords(comparison, names), release: releaseSince(release.from, release.to) }
			})
		)
	}));

/** A way as a page with little room shows it: where it leads, without the list of what moves. */
export interface BriefWay extends Omit<ShownWay, 'entries' | 'effects'> {
	/** the release, in words */
	says: string;
}

export interface BriefSlip extends Omit<ShownSlip, 'ways'> {
	ways: BriefWay[];
}

export const briefSlip = ({ ways, ...slip }: ShownSlip): BriefSlip => ({
	...slip,
	ways: ways.map(({ entries: _, effects, ...way }) => ({ ...way, says: effects.release }))
});
