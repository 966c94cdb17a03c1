import type { Edit, Taken } from '../../run/index.ts';
import { compareWords, type ComparisonWords, type Names } from '../compare-words.ts';
import type { Slip, ChoiceEntry } from './slip.ts';

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
}

/** Slips in words; `names` is how the reader calls phases and medicines. */
export const shownSlips = (slips: readonly Slip[], names: Names): ShownSlip[] =>
	slips.map(({ task, hoursLate, proposed, reason, ways }) => ({
		id: task.id,
		text: task.text,
		date: task.date,
		time: task.time,
		open: task.state === 'open',
		hoursLate,
		reason,
		ways: ways.map(({ taken, title, danger, because, source, entries, edits, comparison }) => ({
			taken,
			title,
			proposed: taken === proposed,
			danger,
			because,
			source,
			entries,
			edits,
			effects: compareWords(comparison, names)
		}))
	}));
