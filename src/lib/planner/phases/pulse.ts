import { gapBounds, type Target } from '../../formulary/index.ts';
import { dayNumber, type Phase } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import type { Service } from '../clock.ts';
import { doseJob } from '../dosing.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import type { Bench, PhaseKindRow, PhaseRun } from '../phase-kind.ts';
import { fallsOn, LONGEST_PLAN_DAYS } from '../recurrence.ts';
import { levelOf, type Forecast } from '../tank-water.ts';
import { figure, levelText } from '../words.ts';

const MS_PER_DAY = 86_400_000;

/** The parasite a pulse is timed against: the row's, else flukes where the medicine treats them. */
export function targetOf(phase: Phase, bottle: Bottle): Target | null {
	return phase.target ?? (bottle.row.treats.flukes ? 'flukes' : null);
}

/** Days between two doses: the cell, the bottle, or the life cycle at the tank's temperature. Null: ask. */
export function gapDays(phase: Phase, bottle: Bottle, temperatureC: number | null): number | null {
	if (phase.repeat && 'everyDays' in phase.repeat) return phase.repeat.everyDays;
	if (bottle.medicine.gapDays !== undefined) return bottle.medicine.gapDays;
	const target = targetOf(phase, bottle);
	if (!target || temperatureC === null) return null;
	const bounds = gapBounds(target, temperatureC);
	return bounds.ok ? bounds.value.proposedDays : null;
}

/** A dose, a wait for the next generation, a dose again. */
export const pulse: PhaseKindRow = {
	kind: 'pulse',
	begin: (phase, bottle, from, bench) =>
		doseSeries(
			phase,
			bottle,
			seriesDays(phase, from, bottle && gapDays(phase, bottle, bench.run.tank.temperatureC)),
			from,
			bench,
			true
		)
};

/** A dose each day. */
export const daily: PhaseKindRow = {
	kind: 'daily',
	begin: (phase, bottle, from, bench) =>
		doseSeries(phase, bottle, seriesDays(phase, from, 1), from, bench, false)
};

interface SeriesDays {
	/** natural day of each dose */
	doses: number[];
	/** last day of the phase, at least the last dose */
	to: number;
}

function seriesDays(phase: Phase, from: number, gap: number | null): SeriesDays {
	const lasts = phase.lasts;
	const until = lasts && 'until' in lasts ? dayNumber(lasts.until) : null;
	const to = lasts && 'days' in lasts ? from + Math.max(1, Math.round(lasts.days)) - 1 : until;
	const wanted = lasts && 'doses' in lasts ? lasts.doses : to === null ? 1 : Infinity;
	const repeat = phase.repeat ?? (gap === null ? null : { everyDays: gap });
	const doses = [from];
	if (repeat) {
		const falls = fallsOn(repeat, from);
		if (!falls(from)) doses.pop();
		const horizon = Math.min(to ?? Infinity, from + LONGEST_PLAN_DAYS);
		for (let day = from + (doses.length ? 1 : 0); day <= horizon && doses.length < wanted; day++)
			if (falls(day)) doses.push(day);
	}
	return { doses, to: Math.max(to ?? from, doses.at(-1) ?? from) };
}

function doseSeries(
	phase: Phase,
	bottle: Bottle | null,
	{ doses, to }: SeriesDays,
	from: number,
	bench: Bench,
	actsAlone: boolean
): PhaseRun {
	const duties = dutiesOf(phase, from, bench.run);
	const days = doses.map((day, i) => {
		const moved = bench.run.moves[`${phase.id}/dose/${i + 1}`];
		return moved ? dayNumber(moved) : day;
	});
	const last = days.length === doses.length && phase.lasts && 'doses' in phase.lasts ? Math.max(...days) : to;
	let lastGiven: { n: number; atMs: number } | null = null;
	const acting = ({ atMs }: Service) =>
		actsAlone &&
		bottle !== null &&
		lastGiven !== null &&
		atMs > lastGiven.atMs &&
		atMs - lastGiven.atMs < bottle.contactDays * MS_PER_DAY;

	return {
		due(service, at) {
			const today = service.slot === 0 ? days.flatMap((day, i) => (day === service.day ? [i + 1] : [])) : [];
			const jobs: Job[] = duties(service, at, today.length > 0);
			if (!bottle) return jobs;
			for (const n of today)
				jobs.push(
					seriesDose(phase, bottle, String(n), days.length, at, () => (lastGiven = { n, atMs: service.atMs }))
				);
			return jobs;
		},
		acting,
		again(service, at) {
			const change = at.plannedChange(service);
			if (!bottle || !change || !lastGiven || !acting(service)) return [];
			return [againDose(phase, bottle, `${lastGiven.n}.2`, change.fraction, at)];
		},
		endsWith: (service) => service.day >= last
	};
}

function seriesDose(
	phase: Phase,
	bottle: Bottle,
	n: string,
	of: number,
	bench: Bench,
	applied: () => void
): Job {
	const level = (phase.level ?? bottle.medicine.level)?.high ?? null;
	const wide = bottle.row.margin.value === 'wide';
	return doseJob({
		phase,
		n,
		bottle,
		bench,
		// A wide margin takes the full dose on top of what may be left; a narrow one only what is missing.
		raise: ({ high }: Forecast) => (level === null ? null : wide ? level : level - levelOf(high, bottle)),
		ceiling: bottle.ceiling,
		because: (was, to) =>
			wide
				? `Dose ${n} of ${of}: the full ${levelText(bottle, level ?? 0)}, added to what may be left (${figure(was, 3)}).`
				: `Dose ${n} of ${of}: topped up from ${levelText(bottle, was)} to ${levelText(bottle, to)}.`,
		applied
	});
}

/** A change that ammonia forced while the dose acts took a share of it: that share goes back in. */
function againDose(phase: Phase, bottle: Bottle, n: string, share: number, bench: Bench): Job {
	const level = (phase.level ?? bottle.medicine.level)?.high ?? null;
	return doseJob({
		phase,
		n,
		bottle,
		bench,
		raise: () => (level === null ? null : level * share),
		ceiling: bottle.ceiling,
		because: (was, to) =>
			`The change took ${figure(share * 100, 0)} % of a dose that still acts: from ${levelText(bottle, was)} back to ${levelText(bottle, to)}.`
	});
}
