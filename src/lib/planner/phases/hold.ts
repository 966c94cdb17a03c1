import { suspects, tolerates, type Target } from '../../formulary/index.ts';
import type { Lot, Phase } from '../../run/index.ts';
import { isUnlabelled, mostAllowed, type Bottle } from '../bottle.ts';
import { creditLedger, type Outage } from '../credit.ts';
import { doseJob } from '../dosing.ts';
import { dutiesOf } from '../duties.ts';
import { dayOf, type Bench, type PhaseKindRow, type PhaseRun } from '../phase-kind.ts';
import { levelOf } from '../tank-water.ts';
import { figure, levelText, outageText } from '../words.ts';
import { lastDay } from './span.ts';

/** A window to stay in, the level aimed at, and what no instant may pass. */
export interface HoldLevels {
	floor: number;
	aim: number;
	ceiling: number;
}

/** Where in the window the aim lies when nobody says (floor plus this share of the width). */
const AIM_SHARE = 0.6;
/** A hold that earns nothing for this long will never end by itself. */
const FRUITLESS_DAYS = 60;
/** Copper at or above this, and back within a day and two hours, pauses a course instead of restarting it (judgment, no source). */
const COPPER_BREAK_FLOOR_MG_PER_L = 0.1;

/** The level at or above which a short break only pauses a course; null: every break restarts it. */
export const breakFloorOf = ({ measuredAs }: Bottle): number | null =>
	measuredAs === 'Cu' ? COPPER_BREAK_FLOOR_MG_PER_L : null;

/**
 * The levels a hold works with: a range in the cell is the window; a single value is the aim inside the
 * medicine's own window. Null where the sheet or the label would have to say more.
 */
export function holdLevels(phase: Phase, bottle: Bottle, lots: readonly Lot[] = []): HoldLevels | null {
	const typed = phase.level ?? bottle.medicine.level ?? null;
	if (!typed || isUnlabelled(bottle)) return null;
	const single = typed.low === typed.high;
	const window = single ? bottle.window : typed;
	if (!window || (single && window.low > typed.low)) return null;
	const ceiling = Math.min(mostAllowed(bottle) ?? window.high, bottle.medicine.ceiling ?? window.high);
	if (window.low >= ceiling && window.low < window.high) return null;
	const usual = window.low + AIM_SHARE * (window.high - window.low);
	const wished =
		phase.aim ??
		(single ? typed.low : Math.min(usual, ...gentler(bottle, lots).map(({ aim }) => aim ?? usual)));
	return { floor: window.low, aim: Math.min(Math.max(wished, window.low), ceiling), ceiling };
}

/** Does the whole window lie above what the medicine may reach? Then no level of it is held at all. */
export function isAboveCeiling(phase: Phase, bottle: Bottle): boolean {
	const most = mostAllowed(bottle);
	return most !== null && phase.level !== null && phase.level.low >= most && phase.level.high > most;
}

/** What the shelf asks for fish that take less, slower. */
const gentler = ({ row }: Bottle, lots: readonly Lot[]) =>
	lots.map(({ group }) => tolerates(group, row.active)).filter(({ verdict }) => verdict === 'sensitive');

/** Raise to the aim in equal steps, make up what changes and loss take, count the days inside the window. */
export const hold: PhaseKindRow = {
	kind: 'hold',
	begin(phase, bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const levels = bottle && holdLevels(phase, bottle, bench.run.lots);
		if (!bottle || !levels || !bottle.medicine.strength)
			return levelless(phase, bottle, levels?.aim ?? null, from, bench, duties);
		const byCredit = !phase.lasts || 'days' in phase.lasts;
		const needDays = phase.lasts && 'days' in phase.lasts ? phase.lasts.days : 1;
		const until = lastDay(phase, from);
		const ledger = creditLedger({
			needDays,
			floor: levels.floor,
			breakFloor: breakFloorOf(bottle),
			testWithinDays: bottle.row.testWithinHours ? bottle.row.testWithinHours.value / 24 : null
		});
		const ramp = rampOf(phase, bottle, bench);
		let lastEarned = from;
		// a course that begins again counts from the next service, not from the moment it was decided or fish joined
		let resting = false;
		const restart = () => {
			ledger.restart();
			resting = true;
		};

		return {
			passed({ from: start, wallDays, lowest }, at) {
				if (resting) return;
				const before = ledger.days();
				ledger.passed(start.wall, wallDays, lowest[bottle.index] ?? 0, at.lastTest(bottle.measuredAs));
				if (ledger.days() > before) lastEarned = start.day;
			},
			due: (service, at) => {
				resting = false;
				return [
					...duties(service, at, service.slot === 0),
					makeUp(phase, bottle, levels, ramp, dayOf(service, from), at, {
						away: at.away(service.day),
						beside: service.beside,
						outage: ledger.outage
					})
				];
			},
			madeUp: (service, _share, at) => [
				makeUp(phase, bottle, levels, ramp, dayOf(service, from), at, {
					away: false,
					beside: true,
					thinned: true,
					outage: ledger.outage
				})
			],
			endedBefore: (service) => byCredit && service.slot === 0 && ledger.full(),
			stuck: (service) => byCredit && service.day - lastEarned > FRUITLESS_DAYS,
			endsWith: (service) => !byCredit && service.day >= until,
			credit: ledger.days,
			pausesUntil: ledger.pausesUntil,
			restart,
			chosen({ taken }, at) {
				if (taken !== 'restart') return false;
				restart();
				const level = at.level(bottle);
				if (level < levels.floor) Object.assign(ramp, { raised: 0, start: level });
				return false;
			},
			levelled: (at) => ledger.levelled(at.level(bottle), at.handsWall()),
			heard({ what, value, wall }) {
				if (what === bottle.measuredAs) ledger.reading(value, wall);
			}
		};
	}
};

/** A dose of a hold that still rises, by the reason {@link makeUp} gives it. */
export const isRampStep = ({ because }: { because: string }): boolean => /^Step \d+ of \d+:/.test(because);

interface Ramp {
	steps: number;
	raised: number;
	start: number;
}

function rampOf(phase: Phase, bottle: Bottle, bench: Bench): Ramp {
	const slowest = Math.max(
		bottle.row.rampDays?.value ?? 1,
		...gentler(bottle, bench.run.lots).map(({ rampDays }) => rampDays ?? 1)
	);
	const steps = phase.rampDays ?? (phase.repeat ? 1 : (hurried(phase, bottle, bench.run.lots) ?? slowest));
	return { steps: Math.max(1, Math.round(steps)), raised: 0, start: bench.level(bottle) };
}

/** Velvet does not wait for a slow rise: the quick one, a step a service, unless fish are there that take less. */
function hurried(phase: Phase, bottle: Bottle, lots: readonly Lot[]): number | null {
	const { hurry } = bottle.row;
	const velvet = (target: Target | null | undefined) => target === 'amyloodinium';
	const suspected =
		velvet(phase.target) || lots.some(({ signs, group }) => velvet(suspects(signs, group)[0]?.target));
	return hurry && suspected && gentler(bottle, lots).length === 0 ? hurry.value.steps : null;
}

interface MakeUp {
	away: boolean;
	beside: boolean;
	thinned?: boolean;
	/** as the ledger has it when the dose is figured */
	outage: (wall: number) => Outage | null;
}

/**
 * On a day away, and at an hour beside the services, nothing is given unless a change made then took some out, or has
 * done so already (`thinned`). The rise goes on at the services alone.
 */
function makeUp(
	phase: Phase,
	bottle: Bottle,
	levels: HoldLevels,
	ramp: Ramp,
	n: string,
	bench: Bench,
	{ away, beside, thinned = false, outage }: MakeUp
) {
	const found = bench.level(bottle);
	// A rise the sheet asks for outright is its keeper's word, and a finding; what is made up stays inside the rule.
	const perService = bottle.row.raisePerService?.value ?? Infinity;
	const most = (levels.aim - ramp.start) / ramp.steps <= perService ? perService : Infinity;
	const step = Math.min(ramp.raised + (beside ? 0 : 1), ramp.steps);
	const target = ramp.start + ((levels.aim - ramp.start) * step) / ramp.steps;
	const count = () => {
		ramp.raised = Math.max(ramp.raised, step);
	};
	const rising = !beside && ramp.raised < ramp.steps;
	const hangs = () => {
		const wall = bench.handsWall();
		const is = outage(wall);
		return is ? ` ${outageText(is, wall, bottle.row.unit)}` : '';
	};
	return doseJob({
		phase,
		n,
		bottle,
		bench,
		raise: ({ central }) => {
			const now = levelOf(central, bottle);
			return (away || beside) && !thinned && now >= found ? 0 : Math.min(target - now, most);
		},
		ceiling: levels.ceiling,
		floor: levels.floor,
		raiseMost: most,
		because: (was, to) =>
			(rising
				? `Step ${step} of ${ramp.steps}: from ${levelText(bottle, was)} to ${levelText(bottle, to)}, on the way to ${levelText(bottle, levels.aim)}.`
				: `Back from ${levelText(bottle, was)} to ${levelText(bottle, to)}: aim ${figure(levels.aim, 3)}, window ${figure(levels.floor, 3)} to ${levelText(bottle, levels.ceiling)}.`) +
			hangs(),
		applied: count,
		spared: away || beside ? undefined : count
	});
}

/** A hold without a level, medicine or strength: its days and tests stand, its first dose stands without a number. */
function levelless(
	phase: Phase,
	bottle: Bottle | null,
	aim: number | null,
	from: number,
	bench: Bench,
	duties: ReturnType<typeof dutiesOf>
): PhaseRun {
	const to = lastDay(phase, from);
	const lacks = bottle && isAboveCeiling(phase, bottle) ? 'its window lies above the ceiling' : undefined;
	return {
		due: (service) => [
			...duties(service, bench, service.slot === 0),
			...(bottle && service.day === from && service.slot === 0
				? [
						doseJob({
							phase,
							n: '1',
							bottle,
							bench,
							raise: () => aim,
							ceiling: null,
							because: () => '',
							lacks
						})
					]
				: [])
		],
		endsWith: (service) => service.day >= to,
		credit: () => 0
	};
}
