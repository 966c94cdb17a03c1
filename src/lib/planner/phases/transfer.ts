import type { Phase } from '../../run/index.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import type { Bench, PhaseKindRow } from '../phase-kind.ts';
import { LONGEST_PLAN_DAYS } from '../recurrence.ts';
import { figure } from '../words.ts';
import { seriesOf, type Round, type Turn } from './series.ts';

/** Days between two moves when the cell does not say (Colorni 1985: tomonts release from day 3). */
const GAP_DAYS = 3;

/** Moves into a clean, dry, matched tank, counted in hours; one move is the move to a clean second tank. */
export const transfer: PhaseKindRow = {
	kind: 'transfer',
	begin(phase, _bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const gap = phase.repeat && 'everyDays' in phase.repeat ? phase.repeat.everyDays : GAP_DAYS;
		const moves = phase.lasts && 'moves' in phase.lasts ? phase.lasts.moves : 1;
		const series = seriesOf(
			{
				name: `${phase.id}/transfer/`,
				moves: bench.run.moves,
				round: (day) => roundOf(moves, gap, day),
				endsWithLast: true
			},
			from
		);
		// where the fish are follows from the moves that were made, not from those that were planned
		const fish = { inSpare: false };
		return {
			due(service, at) {
				const jobs = duties(service, at);
				for (const turn of series.at(service)) jobs.push(moveJob(phase, turn, gap, bench, fish));
				return jobs;
			},
			chosen: series.chosen,
			awaits: series.awaits,
			endsWith: (service) => service.day >= series.last()
		};
	}
};

const roundOf = (moves: number, gap: number, from: number): Round => ({
	days: Array.from({ length: Math.min(moves, LONGEST_PLAN_DAYS) }, (_, i) => from + i * gap),
	to: from,
	of: moves
});

function moveJob(
	phase: Phase,
	{ n, place, of }: Turn,
	gap: number,
	bench: Bench,
	fish: { inSpare: boolean }
): Job {
	const { spare, tank } = bench.run;
	return {
		phase: phase.id,
		kind: 'transfer',
		n: String(n),
		applied: () => {
			fish.inSpare = of === 1 || !fish.inSpare;
		},
		act: (water, source) => {
			const across = of === 1 || !fish.inSpare;
			const name = across ? (spare?.name ?? 'the second tank') : tank.name;
			const netL = across ? (spare?.netL ?? tank.netL) : tank.netL;
			return {
				effects: [{ does: 'renew', water: source, volumeL: netL ?? water.central.volumeL }],
				amount: netL === null ? null : { value: netL, unit: 'L' },
				words: () => ({
					text: `Move ${place} of ${of}: all fish into ${name}, clean and dry`,
					because:
						of === 1
							? 'A clean, dry second tank with its own tools leaves every cyst behind; no wash-out is needed for the fish.'
							: `${place === 1 ? `The first of ${of}, ${figure(gap * 24, 0)} h apart` : `${figure(gap * 24, 0)} h after the one before`}: cysts stay behind and release from day 3 on (Colorni 1985). Fill with matched water a day ahead; strip, disinfect and dry the old tank.`,
					cautions: [
						'Match temperature, salinity and pH before the fish go in; carry no water, net or tube across.'
					]
				})
			};
		}
	};
}
