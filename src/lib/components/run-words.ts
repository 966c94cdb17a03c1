import { labels } from '$lib/formulary';
import type { Plan } from '$lib/planner';
import { presentLots, type Run } from '$lib/run';
import { displayIn, type UnitSystem } from '$lib/units';

const figure = (value: number) => String(Number(value.toFixed(1)));

/** Litres without padding, or gallons. */
const litresIn = (system: UnitSystem, litres: number) =>
	system === 'us' ? displayIn('us', 'volume', litres) : `${figure(litres)} L`;

/** The tank and what swims in it, in one line; what is not known is left out. */
export function tankLine(run: Run, system: UnitSystem): string {
	const { tank } = run;
	const lots = presentLots(run);
	const fish = lots.reduce((sum, lot) => sum + lot.count, 0);
	const mass = lots.every(({ massG }) => massG !== null)
		? lots.reduce((sum, lot) => sum + (lot.massG ?? 0), 0)
		: 0;
	return [
		tank.name ? `Tank ${tank.name}` : '',
		tank.netL === null ? 'volume unknown' : `${litresIn(system, tank.netL)} net`,
		tank.temperatureC === null ? '' : displayIn(system, 'temperature', tank.temperatureC),
		tank.salinityPpt === null ? '' : `${figure(tank.salinityPpt)} ppt`,
		tank.pH === null ? '' : `pH ${tank.pH}`,
		fish > 0 ? `${fish} fish${mass > 0 ? `, ${figure(mass)} g` : ''}` : ''
	]
		.filter(Boolean)
		.join(' · ');
}

/** The day of release; `unsure` where a course in it cannot be dosed yet. Null: none is planned, or a check forbids it. */
export function releaseOf({ release, tasks, findings }: Plan): { day: string; unsure: boolean } | null {
	if (release) return { day: release, unsure: false };
	const forbidden = findings.some(({ severity, rule }) => severity === 'stop' && rule.startsWith('release-'));
	const day = tasks.find(({ kind }) => kind === 'release')?.date;
	return day && !forbidden ? { day, unsure: true } : null;
}

/** The days in range of the first phase that counts them, against those it asks. */
export function creditOf(run: Run, plan: Plan): { name: string; days: number; asked: number } | null {
	for (const span of plan.phases) {
		const phase = run.phases.find(({ id }) => id === span.id);
		const asked = phase?.lasts && 'days' in phase.lasts ? phase.lasts.days : 0;
		if (span.creditedDays === undefined || !phase || !asked) continue;
		// a part of a day does not count yet; sums of hours may fall short of a whole one by a rounding
		const earned = Math.floor((span.creditedSoFar ?? 0) + 1e-6);
		const active = run.medicines.find(({ id }) => id === phase.medicine)?.active;
		return { name: active ? labels[active].name : 'Salinity', days: earned, asked };
	}
	return null;
}
