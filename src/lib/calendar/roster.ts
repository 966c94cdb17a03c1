import { labels } from '../formulary/index.ts';
import type { Plan, TaskKind } from '../planner/index.ts';
import { dayNumber, dayText, type Day, type Phase, type Run } from '../run/index.ts';
import { medicineHues, phaseHue, type Hue } from './hue.ts';
import { lanesOf } from './lane.ts';
import { axisOf, weeksOf, type Axis, type AxisFold, type AxisWeek } from './roster-axis.ts';
import { phaseLabel } from './weeks.ts';

/** One run among others: who, where, until when, what is wrong, and its phases against the common days. */
export interface RosterRow {
	id: string;
	name: string;
	tank: string;
	begins: Day | null;
	release: Day | null;
	/** the phases of today, by id */
	now: string[];
	openJobs: number;
	stops: number;
	cautions: number;
	bands: RosterBand[];
	/** how many bands lie above each other at most */
	lanes: number;
	/** where its own today falls in the span, 0 to 1; null outside it */
	today: number | null;
}

/** `start` and `width` are shares of the roster's whole span, 0 to 1. */
export interface RosterBand {
	phase: string;
	/** its row and its name */
	label: string;
	from: Day;
	to: Day;
	hue: Hue;
	lane: number;
	start: number;
	width: number;
}

/** What one day asks of the whole room. */
export interface RosterLoad {
	day: Day;
	jobs: number;
	/** new water for changes, washouts and moves */
	waterL: number;
}

export interface Roster {
	rows: RosterRow[];
	from: Day | null;
	to: Day | null;
	/** every day of the span that is not folded */
	load: RosterLoad[];
	/** first days of weeks in the span, with their place in it */
	weeks: AxisWeek[];
	/** long stretches without any run, which are left out */
	folds: AxisFold[];
}

/** One kept run; `today` is the day its own zone has. */
export interface Kept {
	id: string;
	run: Run;
	plan: Plan;
	today: Day;
}

/** All runs against the same days. A phase's last day belongs to its band. */
export function rosterOf(runs: readonly Kept[], firstWeekday = 1): Roster {
	const axis = axisOf(runs.flatMap(({ plan }) => stretchOf(plan)));
	return {
		rows: runs.map((kept) => rowOf(kept, axis)),
		from: axis.days[0] ?? null,
		to: axis.days.at(-1) ?? null,
		load: loadOf(runs, axis.days),
		weeks: weeksOf(axis, firstWeekday),
		folds: axis.folds
	};
}

/** The days from a run's first phase to the end of its last. */
function stretchOf({ phases }: Plan): { from: Day; to: Day }[] {
	const days = phases.flatMap(({ from, to }) => [from, to].filter((day) => day !== null)).sort();
	const [from, to] = [days[0], days.at(-1)];
	return from && to ? [{ from, to }] : [];
}

const renewing: readonly TaskKind[] = ['change', 'washout', 'transfer'];

function loadOf(runs: readonly Kept[], days: readonly Day[]): RosterLoad[] {
	const byDay = new Map(days.map((day) => [day, { day, jobs: 0, waterL: 0 }]));
	for (const { plan } of runs)
		for (const task of plan.tasks) {
			const load = byDay.get(task.date);
			if (!load) continue;
			load.jobs += 1;
			if (renewing.includes(task.kind)) load.waterL += task.amount?.value ?? 0;
		}
	return [...byDay.values()];
}

/** The row as the sheet counts it, and what is in the water. */
function labelOf(phase: Phase, { phases, medicines }: Run): string {
	const active = medicines.find(({ id }) => id === phase.medicine)?.active;
	const name = active ? labels[active].name : null;
	const treats = name !== null && phase.kind !== 'washout';
	return `${phases.indexOf(phase) + 1} ${treats ? name : phaseLabel(phase, null, '')}`;
}

function bandsOf({ run, plan, today }: Kept, { share }: Axis): RosterBand[] {
	const hues = medicineHues(run.medicines);
	const spans = plan.phases.flatMap(({ id, from, to }) => {
		const phase = run.phases.find((one) => one.id === id);
		if (!phase || from === null) return [];
		return [{ phase, from, to: to ?? dayText(Math.max(dayNumber(from), dayNumber(today))) }];
	});
	const lanes = lanesOf(spans.map(({ from, to }) => ({ from: dayNumber(from), to: dayNumber(to) })));
	return spans.map(({ phase, from, to }, at) => ({
		phase: phase.id,
		label: labelOf(phase, run),
		from,
		to,
		hue: phaseHue(phase, hues),
		lane: lanes[at] ?? 0,
		start: share(from),
		// the end of its last day, which may be the axis' own end
		width: share(dayText(dayNumber(to) + 1)) - share(from)
	}));
}

function rowOf(kept: Kept, axis: Axis): RosterRow {
	const { id, run, plan, today } = kept;
	const count = (severity: string) => plan.findings.filter((finding) => finding.severity === severity).length;
	const bands = bandsOf(kept, axis);
	const at = axis.days.length === 0 ? -1 : axis.share(today);
	return {
		id,
		name: run.name,
		tank: run.tank.name,
		begins: plan.begins,
		release: plan.release,
		now: bands.filter((band) => band.from <= today && band.to >= today).map(({ phase }) => phase),
		openJobs: plan.tasks.filter(({ state }) => state === 'open').length,
		stops: count('stop'),
		cautions: count('caution'),
		bands,
		lanes: Math.max(1, ...bands.map(({ lane }) => lane + 1)),
		today: at >= 0 && at <= 1 ? at : null
	};
}
