import { gapBounds, type Target } from '../../formulary/index.ts';
import { dayNumber, type Phase } from '../../run/index.ts';
import { mostAllowed, type Bottle } from '../bottle.ts';
import type { Service } from '../clock.ts';
import { doseJob } from '../dosing.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import type { Bench, PhaseKindRow, PhaseRun } from '../phase-kind.ts';
import { fallsOn, LONGEST_PLAN_DAYS } from '../recurrence.ts';
import { mostOf } from '../tank-water.ts';
import { figure, levelText } from '../words.ts';
import { seriesOf, type Round, type Turn } from './series.ts';

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
	begin: (phase, bottle, from, bench) => {
		const gap = bottle && gapDays(phase, bottle, bench.run.tank.temperatureC);
		return doseSeries(phase, bottle, from, bench, { gap, actsAlone: true, owes: false });
	}
};

/** A dose each day. One that is given up is made good at the end. */
export const daily: PhaseKindRow = {
	kind: 'daily',
	begin: (phase, bottle, from, bench) =>
		doseSeries(phase, bottle, from, bench, { gap: 1, actsAlone: false, owes: true })
};

/** Days of the doses, and the last day the row names. */
function roundOf(phase: Phase, from: number, gap: number | null): Round {
	const lasts = phase.lasts;
	const until = lasts && 'until' in lasts ? dayNumber(lasts.until) : null;
	const to = lasts && 'days' in lasts ? from + Math.max(1, Math.round(lasts.days)) - 1 : until;
	const wanted = lasts && 'doses' in lasts ? lasts.doses : to === null ? 1 : Infinity;
	const repeat = phase.repeat ?? (gap === null ? null : { everyDays: gap });
	const days = [from];
	if (repeat) {
		const falls = fallsOn(repeat, from);
		if (!falls(from)) days.pop();
		const horizon = Math.min(to ?? Infinity, from + LONGEST_PLAN_DAYS);
		for (let day = from + (days.length ? 1 : 0); day <= horizon && days.length < wanted; day++)
			if (falls(day)) days.push(day);
	}
	return { days, to: to ?? from };
}

interface Rhythm {
	/** days between two doses where the cell does not say; null: nobody can */
	gap: number | null;
	/** no change may thin a dose while it acts */
	actsAlone: boolean;
	/** a dose given up is made good at the end */
	owes: boolean;
}

function doseSeries(
	phase: Phase,
	bottle: Bottle | null,
	from: number,
	bench: Bench,
	{ gap, actsAlone, owes }: Rhythm
): PhaseRun {
	const duties = dutiesOf(phase, from, bench.run);
	const series = seriesOf(
		{
			name: `${phase.id}/dose/`,
			moves: bench.run.moves,
			round: (day) => roundOf(phase, day, gap),
			endsWithLast: phase.lasts !== null && 'doses' in phase.lasts,
			...(owes ? { owes: fallsOn(phase.repeat ?? { everyDays: 1 }, from) } : {})
		},
		from
	);
	let lastGiven: { n: number; atMs: number } | null = null;
	const acting = ({ atMs }: Service) =>
		actsAlone &&
		bottle !== null &&
		lastGiven !== null &&
		atMs > lastGiven.atMs &&
		atMs - lastGiven.atMs < bottle.contactDays * MS_PER_DAY;

	return {
		due(service, at) {
			const today = series.at(service);
			const jobs: Job[] = duties(service, at, today.length > 0);
			if (!bottle) return jobs;
			for (const turn of today)
				jobs.push(seriesDose(phase, bottle, turn, at, (atMs) => (lastGiven = { n: turn.n, atMs })));
			return jobs;
		},
		acting,
		again(service, at) {
			const change = at.plannedChange(service);
			if (!bottle || !change || !lastGiven || !acting(service)) return [];
			return [againDose(phase, bottle, `${lastGiven.n}.2`, change.fraction, at)];
		},
		madeUp(service, share, at) {
			if (!bottle || !lastGiven || !acting(service)) return [];
			const n = `${lastGiven.n}.${service.written.replace(':', '')}`;
			return [againDose(phase, bottle, n, share, at)];
		},
		chosen: series.chosen,
		awaits: () => (bottle ? series.awaits() : null),
		endsWith: (service) => service.day >= series.last()
	};
}

function seriesDose(
	phase: Phase,
	bottle: Bottle,
	{ n, place, of }: Turn,
	bench: Bench,
	applied: (atMs: number) => void
): Job {
	const level = (phase.level ?? bottle.medicine.level)?.high ?? null;
	const wide = bottle.row.margin.value === 'wide';
	return doseJob({
		phase,
		n: String(n),
		bottle,
		bench,
		// A wide margin takes the full dose on top of what may be left; a narrow one only what is missing.
		raise: (water) => (level === null ? null : wide ? level : level - mostOf(water, bottle)),
		ceiling: mostAllowed(bottle),
		because: (was, to) =>
			wide
				? `Dose ${place} of ${of}: the full ${levelText(bottle, level ?? 0)}, added to what may be left (${figure(was, 3)}).`
				: `Dose ${place} of ${of}: topped up from ${levelText(bottle, was)} to ${levelText(bottle, to)}.`,
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
		ceiling: mostAllowed(bottle),
		because: (was, to) =>
			`The change took ${figure(share * 100, 0)} % of a dose that still acts: from ${levelText(bottle, was)} back to ${levelText(bottle, to)}.`
	});
}
