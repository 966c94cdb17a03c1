import { dayNumber, type Run } from '../../run/index.ts';
import type { Service } from '../clock.ts';
import type { Chosen } from '../phase-kind.ts';
import { isPut } from '../put.ts';
import type { Falls } from '../recurrence.ts';

/** The days one round of a series asks for, and the last day its row names. */
export interface Round {
	days: readonly number[];
	to: number;
	/** how many jobs the row asks for, where the days of a plan cannot hold them all */
	of?: number;
}

/** One job of a series. `n` is its number for good, `place` its place in its own round, from 1. */
export interface Turn {
	n: number;
	place: number;
	of: number;
	/** the day the rhythm gives it; a day it was moved to wins */
	natural: number;
	/** the keeper chose its moment: it is due then, not at a service */
	chosen?: true;
}

export interface SeriesPlan {
	/** start of its task ids, such as `flukes/dose/` */
	name: string;
	moves: Run['moves'];
	/** the round that begins on a day */
	round(from: number): Round;
	/** where a job given up is made good after the last one: the days of its rhythm */
	owes?: Falls;
	/** the phase ends with the last job, wherever that was moved */
	endsWithLast: boolean;
}

/**
 * Jobs that the sheet counts: doses, moves, dips. A number once given stays with its job, whatever day that goes to;
 * a round that begins anew, and a job added at the end, count on from the last number that had come due.
 */
export function seriesOf({ name, moves, round, owes, endsWithLast }: SeriesPlan, from: number) {
	let { turns, to } = roundFrom(1, round(from));
	const put = ({ n, chosen }: Turn) => (chosen ? undefined : moves[`${name}${n}`]);
	const dayOf = (turn: Turn) => {
		const moved = put(turn);
		return moved ? dayNumber(moved.day) : turn.natural;
	};
	const isDue = (turn: Turn, service: Service) => {
		const moved = put(turn);
		return moved ? isPut(moved, service) : service.slot === 0 && turn.natural === service.day;
	};
	const lastOf = () => turns.reduce<Turn | null>((a, b) => (a && dayOf(a) >= dayOf(b) ? a : b), null);

	/** It is due now, and what is left of the series as much later as this one was; or keeps its days. */
	function give({ n, taken, day, settled }: Chosen): void {
		const late = turns.find((turn) => turn.n === n);
		if (!late) return;
		const by = taken === 'now-shift' ? Math.max(0, day - dayOf(late)) : 0;
		turns = turns.map((turn) => {
			if (turn === late) return { ...turn, natural: day, chosen: true };
			return turn.n < n || settled(turn.n) ? turn : { ...turn, natural: turn.natural + by };
		});
		to += by;
	}

	function makeGood(falls: Falls): void {
		const last = lastOf();
		if (!last) return;
		let day = dayOf(last) + 1;
		while (!falls(day) && day < dayOf(last) + 8) day++;
		turns = [...turns, { ...last, n: highest(turns) + 1, place: last.place, natural: day }];
		to = Math.max(to, day);
	}

	function begin({ n, nextDay }: Chosen): void {
		const past = turns.filter((turn) => turn.n <= n || dayOf(turn) < nextDay);
		const fresh = roundFrom(highest(past) + 1, round(nextDay));
		turns = [...past, ...fresh.turns];
		to = fresh.to;
	}

	return {
		at: (service: Service): Turn[] => turns.filter((turn) => !turn.chosen && isDue(turn, service)),
		/** the phase's last day */
		last: (): number => {
			const last = lastOf();
			return endsWithLast && last ? dayOf(last) : to;
		},
		/** task id of the job whose answer the phase waits for */
		awaits: (): string | null => {
			const last = lastOf();
			return last && `${name}${last.n}`;
		},
		/** true where the choice is about one of these jobs */
		chosen(choice: Chosen): boolean {
			if (!name.endsWith(`/${choice.kind}/`)) return false;
			if (choice.taken === 'restart') begin(choice);
			else if (choice.taken !== 'skip') give(choice);
			else if (owes) makeGood(owes);
			return true;
		}
	};
}

const highest = (turns: readonly Turn[]) => Math.max(0, ...turns.map(({ n }) => n));

function roundFrom(first: number, { days, to, of }: Round): { turns: Turn[]; to: number } {
	const turns = days.map((natural, i) => ({ n: first + i, place: i + 1, of: of ?? days.length, natural }));
	return { turns, to: Math.max(to, days.at(-1) ?? to) };
}
