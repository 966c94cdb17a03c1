import type { Plan, TaskKind } from '../planner/index.ts';
import { dayNumber, dayText, weekday, type Day, type Run } from '../run/index.ts';
import { medicineHues, phaseHue, type Hue } from './hue.ts';
import { lanesOf } from './lane.ts';

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
	/** every day of the span */
	load: RosterLoad[];
	/** first days of weeks in the span, with their place in it */
	weeks: { day: Day; start: number }[];
}

/** One kept run; `today` is the day its own zone has. */
export interface Kept {
	id: string;
	run: Run;
	plan: Plan;
	today: Day;
}

/** The days all runs share, as a scale from 0 to 1. */
interface Scale {
	first: number;
	days: number;
	share: (day: Day) => number;
}

/** All runs against the same days. A phase's last day belongs to its band. */
export function rosterOf(runs: readonly Kept[], firstWeekday = 1): Roster {
	const days = runs.flatMap(({ plan }) =>
		plan.phases.flatMap(({ from, to }) => [from, to].filter((day) => day !== null))
	);
	const from = days.reduce<Day | null>((least, day) => (least === null || day < least ? day : least), null);
	const to = days.reduce<Day | null>((most, day) => (most === null || day > most ? day : most), null);
	const first = from === null ? 0 : dayNumber(from);
	const span = from === null || to === null ? 0 : dayNumber(to) + 1 - first;
	const scale: Scale = { first, days: span, share: (day) => (dayNumber(day) - first) / (span || 1) };
	const all = Array.from({ length: span }, (_, at) => dayText(first + at));
	return {
		rows: runs.map((kept) => rowOf(kept, scale)),
		from,
		to,
		load: loadOf(runs, all),
		weeks: all
			.filter((day) => weekday(dayNumber(day)) === firstWeekday)
			.map((day) => ({ day, start: scale.share(day) }))
	};
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

function bandsOf({ run, plan, today }: Kept, { days, share }: Scale): RosterBand[] {
	const hues = medicineHues(run.medicines);
	const spans = plan.phases.flatMap(({ id, from, to }) => {
		const phase = run.phases.find((one) => one.id === id);
		if (!phase || from === null) return [];
		return [{ phase, from, to: to ?? dayText(Math.max(dayNumber(from), dayNumber(today))) }];
	});
	const lanes = lanesOf(spans.map(({ from, to }) => ({ from: dayNumber(from), to: dayNumber(to) })));
	return spans.map(({ phase, from, to }, at) => ({
		phase: phase.id,
		from,
		to,
		hue: phaseHue(phase, hues),
		lane: lanes[at] ?? 0,
		start: share(from),
		width: share(to) + 1 / days - share(from)
	}));
}

function rowOf(kept: Kept, scale: Scale): RosterRow {
	const { id, run, plan, today } = kept;
	const count = (severity: string) => plan.findings.filter((finding) => finding.severity === severity).length;
	const bands = bandsOf(kept, scale);
	const at = scale.days === 0 ? -1 : scale.share(today);
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
