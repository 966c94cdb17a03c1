import type { Phase, Run } from '../run/index.ts';
import type { Service } from './clock.ts';
import type { Job } from './job.ts';
import { dayOf, type Bench } from './phase-kind.ts';
import { isPut } from './put.ts';
import { fallsOn, type Falls } from './recurrence.ts';
import { amountText, figure, measurableName } from './words.ts';

/**
 * What of a repeated job is due at a service, as the days its ids count: at the first one of a day what falls on it,
 * and at any what was put there, which keeps its number.
 */
export function movedDays(
	moves: Run['moves'],
	series: string,
	from: number,
	falls: Falls
): (service: Service) => number[] {
	const natural = ({ day, slot }: Service) => (slot === 0 && falls(day) ? [day] : []);
	const moved = Object.entries(moves)
		.filter(([id]) => id.startsWith(series) && /^\d+$/.test(id.slice(series.length)))
		.map(([id, to]) => ({ day: from + Number(id.slice(series.length)) - 1, to }));
	if (moved.length === 0) return natural;
	return (service) => [
		...natural(service).filter((day) => !moved.some((move) => move.day === day)),
		...moved.filter(({ day, to }) => falls(day) && isPut(to, service)).map(({ day }) => day)
	];
}

/** The tests and water changes a row of the sheet asks for, whatever its kind. `dosing`: a change before it is due. */
export function dutiesOf(
	phase: Phase,
	from: number,
	run: Run
): (service: Service, bench: Bench, dosing?: boolean) => Job[] {
	const tests = phase.test.map(({ what, repeat }) => ({
		what,
		due: movedDays(run.moves, `${phase.id}/test/`, from, fallsOn(repeat, from))
	}));
	const change = fixedChange(phase, from, run);
	return (service, bench, dosing = false) => {
		const jobs: Job[] = [];
		const byDay = new Map<number, string[]>();
		for (const { what, due } of tests)
			for (const natural of due(service)) byDay.set(natural, [...(byDay.get(natural) ?? []), what]);
		for (const [natural, what] of byDay) jobs.push(testJob(phase, String(natural - from + 1), what));
		if (phase.change && 'auto' in phase.change) {
			const planned = bench.plannedChange(service);
			if (planned) jobs.push(changeJob(phase, String(planned.natural - from + 1), planned.fraction, bench));
		} else if (phase.change && 'beforeDose' in phase.change) {
			if (dosing) jobs.push(changeJob(phase, dayOf(service, from), phase.change.fraction, bench));
		} else if (phase.change)
			for (const natural of change(service))
				jobs.push(changeJob(phase, String(natural - from + 1), phase.change.fraction, bench));
		return jobs;
	};
}

/** A wash-out changes from its first day; any other row's `every n d` comes n days later. */
function fixedChange(phase: Phase, from: number, run: Run): (service: Service) => number[] {
	if (!phase.change || !('repeat' in phase.change)) return () => [];
	const { repeat } = phase.change;
	const falls = fallsOn(repeat, from);
	const washout = phase.kind === 'washout';
	const begins: Falls = 'everyDays' in repeat && !washout ? (day) => day > from && falls(day) : falls;
	return movedDays(run.moves, `${phase.id}/${washout ? 'washout' : 'change'}/`, from, begins);
}

export function testJob(phase: Phase, n: string, what: string[]): Job {
	return {
		phase: phase.id,
		kind: 'test',
		n,
		what,
		act: () => ({
			effects: [],
			amount: null,
			words: () => ({
				text: `Test ${what.join(', ')}`,
				because: `${capital(listOf(what.map((w) => measurableName[w] ?? w)))} ${what.length > 1 ? 'are' : 'is'} read on this day of the phase.`,
				what
			})
		})
	};
}

export function changeJob(phase: Phase, n: string, fraction: number, bench: Bench): Job {
	const kind = phase.kind === 'washout' ? 'washout' : 'change';
	return {
		phase: phase.id,
		kind,
		n,
		fraction,
		act: ({ central }, source) => {
			const amount = bench.netL === null ? null : { value: fraction * central.volumeL, unit: 'L' as const };
			return {
				effects: [{ does: 'change', fraction, water: source }],
				amount,
				scale: ({ value }, water) => [
					{ does: 'change', fraction: Math.min(1, value / water.central.volumeL), water: source }
				],
				words: () => ({
					text: amount
						? `${kind === 'washout' ? 'Wash out' : 'Change'} ${amountText(amount)}`
						: `Change ${figure(fraction * 100, 1)} %: tank volume missing`,
					because: changeReason(phase, fraction, central, bench),
					fraction
				})
			};
		}
	};
}

function changeReason(
	phase: Phase,
	fraction: number,
	tank: { volumeL: number; tanMg: number; nitrateMg: number },
	bench: Bench
): string {
	const share = `${figure(fraction * 100, 1)} % of the water`;
	if (bench.netL === null) return `${share} is asked, but without a volume there are no litres.`;
	const levels = `total ammonia ${figure(tank.tanMg / tank.volumeL, 3)} mg/L N, nitrate ${figure(tank.nitrateMg / tank.volumeL, 1)} mg/L`;
	if (phase.change && 'auto' in phase.change)
		return `${share}: before it ${levels}; without it a limit or seven days would be passed before the next chance.`;
	return `${share}, as the sheet says; before it ${levels}.`;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const listOf = (words: string[]) =>
	words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
