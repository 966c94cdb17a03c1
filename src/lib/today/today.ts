import {
	bodyOf,
	dayOfInstant,
	figure,
	overdue,
	setbacksOf,
	skippedOpen,
	urgentFirst,
	wayTitle,
	type Body,
	type Instant,
	type Plan,
	type Setback,
	type Task
} from '../planner/index.ts';
import {
	dayNumber,
	dayText,
	presentLots,
	readLog,
	type Day,
	type Fact,
	type Lot,
	type Run,
	type Taken
} from '../run/index.ts';
import type { Asking } from './asked.ts';
import { gravestFirst, isAnswered, rowsOf, said, type JobRow, type Said } from './job-row.ts';
import { lineOf, type LoggedLine } from './logged.ts';
import { leavesBehind, stillOpen, type OpenSeries } from './missed.ts';
import {
	hygieneAfter,
	hygieneBetween,
	standingOf,
	standings,
	type Hygiene,
	type Standing
} from './standing.ts';

/** Open jobs of earlier services, folded by phase and kind, and what they leave behind. */
export interface MissedJob {
	rows: JobRow[];
	date: Day;
	leaves: string;
	/** ids of the same series that are open too */
	others: string[];
	/** what its ways to go on are called */
	titles: Record<Taken, string>;
}

/** Fish that can be looked at; `body`: what one that died may do to this tank's water. */
export interface TodayLot extends Pick<Lot, 'id' | 'what' | 'group' | 'count'> {
	body: Body | null;
}

/** One tank's part of the day. */
export interface TankToday {
	run: string;
	name: string;
	tank: string;
	/** today in the run's own zone */
	date: Day;
	/** day of the run, 1 on its first */
	day: number;
	zone: string;
	standing: Standing;
	why: string;
	/** signs on record that speak these days */
	signs: string[];
	/** before this tank's first job; null for the first tank */
	hygiene: Hygiene | null;
	away: boolean;
	/** the next day nobody comes, within a week */
	nextAway: Day | null;
	missed: MissedJob[];
	/** jobs that were skipped and still ask how to go on: the first of them, and how many there are */
	skipped: { task: string; count: number } | null;
	rows: JobRow[];
	/** what is said about today and belongs to no job, and stops on the whole run */
	findings: Said[];
	/** of today, with no job behind it */
	logged: LoggedLine[];
	lots: TodayLot[];
	/** estimated, of what is still to do */
	minutes: number;
	/** when something is due next, where today has nothing */
	next: Day | null;
}

/** The whole round. */
export interface Today {
	now: Instant;
	/** the day most tanks are in */
	date: Day;
	tanks: TankToday[];
	/** after the last tank, where that one is sick */
	hygieneAfter: Hygiene | null;
}

export interface Planned {
	run: Run;
	plan: Plan;
}

/**
 * The jobs of the day over all runs, in working order: displays before quarantine, the cleanest tank first, suspected
 * and sick ones last, a hygiene step between two tanks; in a tank by service and the order of work. `now` is an
 * instant; a run's today is the calendar day of its own zone. A day belongs to the services written on it.
 */
export function todayOf(planned: readonly Planned[], now: Instant): Today {
	return roundOf(
		planned.flatMap((one) => tankToday(one, now) ?? []),
		now
	);
}

/** The round over tanks in any order, each as {@link tankToday} gives it. */
export function roundOf(each: readonly TankToday[], now: Instant): Today {
	const tanks = each.toSorted(
		(a, b) =>
			standings.indexOf(a.standing) - standings.indexOf(b.standing) ||
			b.day - a.day ||
			(a.tank < b.tank ? -1 : a.tank > b.tank ? 1 : a.run < b.run ? -1 : 1)
	);
	let before: Standing | null = null;
	for (const [n, tank] of tanks.entries()) {
		if (tank.rows.length + tank.missed.length === 0) continue;
		if (before) tanks[n] = { ...tank, hygiene: hygieneBetween(before, tank.standing) };
		before = tank.standing;
	}
	const last = before;
	return {
		now,
		date: tanks[0]?.date ?? now.slice(0, 10),
		tanks,
		hygieneAfter: last === 'sick' || last === 'suspected' ? hygieneAfter : null
	};
}

/**
 * One tank's part, nothing said yet of the tank before it. Null for a run that has not begun and has nothing to prepare,
 * and for one that is over.
 */
export function tankToday({ run, plan }: Planned, now: Instant): TankToday | null {
	const nowMs = Date.parse(now);
	const today = dayOfInstant(run.timeZone, nowMs);
	const date = dayText(today);
	const facts = readLog(run.log);
	const passed = overdue(run, nowMs);
	const isEarlier = (task: Task) => task.state === 'open' && passed(task);
	const earlier = stillOpen(plan.tasks.filter(isEarlier));
	const own = plan.tasks.filter((task) => task.date === date && !isEarlier(task));
	const next = plan.tasks.find((task) => task.date > date)?.date ?? null;
	const begun = plan.begins !== null && plan.begins <= date;
	if (own.length === 0 && earlier.length === 0 && (!begun || next === null)) return null;
	const answered = new Set(
		facts.flatMap((fact) => ('task' in fact && fact.task && fact.kind !== 'choice' ? [fact.task] : []))
	);
	const asking: Asking = { run, plan, nowMs, answered };
	const rows = urgentFirst(own).flatMap((task) => rowsOf(asking, task, facts));
	const volumeL = plan.levels.findLast(({ at }) => Date.parse(at) <= nowMs)?.volumeL ?? run.tank.netL;
	const { standing, why, signs } = standingOf(run, plan, facts, nowMs, date);
	return {
		run: run.id,
		name: run.name,
		tank: run.tank.name || run.name,
		date,
		day: plan.begins ? today - dayNumber(plan.begins) + 1 : 1,
		zone: run.timeZone,
		standing,
		why,
		signs,
		hygiene: null,
		away: run.away.includes(date),
		nextAway: run.away.filter((day) => day > date && dayNumber(day) - today <= 7).sort()[0] ?? null,
		missed: earlier.map((series) => missedOf(asking, series, facts)),
		skipped: skippedOf(asking),
		rows,
		findings: [...findingsOf(plan, own, date), ...setbacksOf(run, plan, now).map(setBack)].sort(gravestFirst),
		logged: facts.filter((fact) => isLoose(fact, run, today)).map((fact) => looseLine(run, plan, fact)),
		lots: presentLots(run).map((lot) => lotToday(lot, volumeL)),
		minutes: Math.round(rows.reduce((sum, row) => sum + (isAnswered(row) ? 0 : row.minutes), 0)),
		next
	};
}

function skippedOf(asking: Asking): TankToday['skipped'] {
	const jobs = skippedOpen(asking);
	return jobs[0] ? { task: jobs[0].id, count: jobs.length } : null;
}

const lotToday = (lot: Lot, volumeL: number | null): TodayLot => {
	const { id, what, group, count } = lot;
	return { id, what, group, count, body: bodyOf(lot, volumeL) };
};

function missedOf(asking: Asking, series: OpenSeries, facts: readonly Fact[]): MissedJob {
	const { task, others } = series;
	return {
		rows: rowsOf(asking, task, facts),
		date: task.date,
		leaves: leavesBehind(series, asking),
		others: others.map(({ id }) => id),
		titles: {
			now: wayTitle(asking, task.id, 'now'),
			'now-shift': wayTitle(asking, task.id, 'now-shift'),
			skip: wayTitle(asking, task.id, 'skip'),
			restart: wayTitle(asking, task.id, 'restart')
		}
	};
}

/** What a reading of today costs. */
const setBack = ({ says, pausesFrom }: Setback): Said => ({
	rule: 'reading-cost',
	severity: 'caution',
	message: says,
	because: `A reading under the floor takes back what was earned since the last one inside; ${
		pausesFrom === null
			? 'with it'
			: `under ${figure(pausesFrom, 3)} mg/L, or not back inside within a day and two hours of that one,`
	} the course counts from its beginning.`,
	source: 'judgment, no source'
});

/** Said about this day, or a stop on the whole run; what stands on a job of today is told there. */
function findingsOf(plan: Plan, own: readonly Task[], date: Day): Said[] {
	const ids = new Set(own.map(({ id }) => id));
	return plan.findings
		.filter(({ task }) => task === undefined || !ids.has(task))
		.filter((one) => one.date === date || (one.date === null && one.severity === 'stop'))
		.map(said)
		.sort(gravestFirst);
}

/** An entry of today that answers no job; a way that was chosen says how to, and is none. */
function isLoose(fact: Fact, run: Run, today: number): boolean {
	if ('task' in fact && fact.task !== undefined && fact.kind !== 'choice') return false;
	return dayOfInstant(run.timeZone, fact.atMs) === today;
}

function looseLine(run: Run, plan: Plan, fact: Fact): LoggedLine {
	const line = lineOf(fact, { run, plan });
	if (fact.kind !== 'choice') return line;
	const job = plan.tasks.find(({ id }) => id === fact.task)?.text ?? fact.task;
	// days that were written moved along with the rest, or were forgotten
	const moved = Object.keys(run.moves).length > 0;
	const stays = fact.taken === 'restart' || (fact.taken === 'now-shift' && moved);
	return { ...line, says: `${job}, ${line.says}`, ...(stays ? { stays } : {}) };
}
