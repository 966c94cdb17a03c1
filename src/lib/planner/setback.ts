import { dayNumber, readLog, type Fact, type Phase, type Run } from '../run/index.ts';
import { bottlesOf, type Bottle } from './bottle.ts';
import { dayOfInstant, momentOf } from './clock.ts';
import { releaseBetween, type Both, type Comparison } from './compare.ts';
import { breakFloorOf, holdLevels } from './phases/hold.ts';
import type { Instant, PhaseSpan, Plan } from './plan.ts';
import { planBefore } from './planning.ts';
import { figure, levelText } from './words.ts';

type Reading = Extract<Fact, { kind: 'reading' }>;

/** What a reading under the floor of a hold took from its course, held against the plan as it stood before it. */
export interface Setback {
	phase: string;
	reading: Reading;
	/** credit of the course, days: just before the reading, and after it */
	earned: Both<number>;
	release: Comparison['release'];
	/** the level at or above which a short break only pauses the course; null: every break restarts it */
	pausesFrom: number | null;
	/** one sentence */
	says: string;
}

/** The first low reading of today in each hold that is under way, where it took days; `plan` is the plan as it stands. */
export function setbacksOf(run: Run, plan: Plan, now: Instant): Setback[] {
	const nowMs = Date.parse(now);
	const today = dayOfInstant(run.timeZone, nowMs);
	const read = readLog(run.log).filter(
		(fact): fact is Reading =>
			fact.kind === 'reading' && fact.atMs <= nowMs && dayOfInstant(run.timeZone, fact.atMs) === today
	);
	return read.length === 0 ? [] : run.phases.flatMap((phase) => setbackIn(run, plan, phase, read, today));
}

function setbackIn(run: Run, plan: Plan, phase: Phase, read: readonly Reading[], today: number): Setback[] {
	const span = plan.phases.find(({ id }) => id === phase.id);
	const bottle = bottlesOf(run).find(({ id }) => id === phase.medicine);
	const levels = bottle && phase.kind === 'hold' ? holdLevels(phase, bottle, run.lots) : null;
	if (!bottle || !levels || !isUnderWay(span, today)) return [];
	const reading = read.find(
		({ what, value }) => (what === bottle.measuredAs || what === bottle.id) && value < levels.floor
	);
	if (!reading) return [];
	const before = planBefore(run, reading.atMs);
	const after = planBefore(run, reading.atMs + 1);
	const earned = { from: earnedIn(before, phase), to: earnedIn(after, phase) };
	const release = releaseBetween(before.release, plan.release);
	const expected = before.levels.findLast(({ at }) => Date.parse(at) <= reading.atMs);
	// low as forecast is no surprise: a rise passes under the floor
	const surprise = (expected?.medicinesMgPerL[bottle.id] ?? 0) >= levels.floor;
	const costs = earned.to < earned.from || (surprise && (release.daysLater ?? 0) > 0);
	const says = sentence(run, bottle, reading, earned, release);
	return costs ? [{ phase: phase.id, reading, earned, release, pausesFrom: breakFloorOf(bottle), says }] : [];
}

const isUnderWay = (span: PhaseSpan | undefined, today: number): boolean =>
	!!span?.from && dayNumber(span.from) <= today && (span.to === null || dayNumber(span.to) >= today);

const earnedIn = (plan: Plan, { id }: Phase): number =>
	plan.phases.find((span) => span.id === id)?.creditedSoFar ?? 0;

function sentence(
	run: Run,
	bottle: Bottle,
	{ value, atMs }: Reading,
	{ from, to }: Setback['earned'],
	release: Setback['release']
): string {
	const lost = from - to;
	const days = (count: number) => `${figure(count, 1)} day${figure(count, 1) === '1' ? '' : 's'}`;
	const undone =
		lost <= 0
			? 'earns nothing until it is back'
			: figure(to, 1) === '0'
				? `took back ${figure(from, 1) === '1' ? 'the day' : `all ${days(from)}`} earned`
				: `took back ${figure(lost, 1)} of ${days(from)} earned`;
	const { time } = momentOf(run.timeZone, atMs);
	return `${where(release, days)}: ${bottle.row.name.toLowerCase()} read as ${levelText(bottle, value)} at ${time} ${undone}.`;
}

function where({ from, to, daysLater }: Setback['release'], days: (count: number) => string): string {
	if (to === null)
		return from === null
			? 'Release has no day, now as before'
			: `Release has no day any more, it was ${from}`;
	if (from === null || daysLater === null) return `Release on ${to}, where there was no day before`;
	if (daysLater === 0) return `Release on ${to}, as planned before`;
	const later = `${days(Math.abs(daysLater))} ${daysLater > 0 ? 'later' : 'sooner'}`;
	return `Release on ${to}, ${later} than ${from}, planned before`;
}
