import type { Phase } from '../../run/index.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import type { Bench, PhaseKindRow } from '../phase-kind.ts';
import { figure } from '../words.ts';

/** Days between two moves when the cell does not say (Colorni 1985: tomonts release from day 3). */
const GAP_DAYS = 3;

/** Moves into a clean, dry, matched tank, counted in hours; one move is the move to a clean second tank. */
export const transfer: PhaseKindRow = {
	kind: 'transfer',
	begin(phase, _bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const gap = phase.repeat && 'everyDays' in phase.repeat ? phase.repeat.everyDays : GAP_DAYS;
		const moves = phase.lasts && 'moves' in phase.lasts ? phase.lasts.moves : 1;
		let made = 0;
		let next = from;
		return {
			due(service, at) {
				const jobs = duties(service, at);
				if (service.slot === 0 && service.day >= next && made < moves) {
					made++;
					next = service.day + gap;
					jobs.push(moveJob(phase, made, moves, gap, bench));
				}
				return jobs;
			},
			endsWith: () => made >= moves
		};
	}
};

function moveJob(phase: Phase, n: number, of: number, gap: number, bench: Bench): Job {
	const { spare, tank } = bench.run;
	const across = of === 1 || n % 2 === 1;
	const name = across ? (spare?.name ?? 'the second tank') : tank.name;
	const netL = across ? (spare?.netL ?? tank.netL) : tank.netL;
	return {
		phase: phase.id,
		kind: 'transfer',
		n: String(n),
		act: (water, source) => ({
			effects: [{ does: 'renew', water: source, volumeL: netL ?? water.central.volumeL }],
			amount: netL === null ? null : { value: netL, unit: 'L' },
			words: () => ({
				text: `Move ${n} of ${of}: all fish into ${name}, clean and dry`,
				because:
					of === 1
						? 'A clean, dry second tank with its own tools leaves every cyst behind; no wash-out is needed for the fish.'
						: `${n === 1 ? `The first of ${of}, ${figure(gap * 24, 0)} h apart` : `${figure(gap * 24, 0)} h after the one before`}: cysts stay behind and release from day 3 on (Colorni 1985). Fill with matched water a day ahead; strip, disinfect and dry the old tank.`,
				cautions: [
					'Match temperature, salinity and pH before the fish go in; carry no water, net or tube across.'
				]
			})
		})
	};
}
