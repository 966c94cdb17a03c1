import { dayNumber, readLog, type Fact, type Run } from '../run/index.ts';
import { agreed, MOST_ROUNDS, same } from './agreed.ts';
import { LEAST, MOST } from './change-step.ts';
import { fewestChanges, type Change, type Schedule } from './changes.ts';
import { dayOfInstant, momentKey, servicesOf } from './clock.ts';
import { lessonsOf } from './fit/lessons.ts';
import { firstDay, march } from './march.ts';
import { hoursBeside, isPut } from './put.ts';

const MS_PER_DAY = 86_400_000;
/** Litres are printed with a digit behind the point or two: so far a share of them may be from a whole percent. */
const WHOLE = 0.02;

/**
 * The automatic changes of days that have begun. What was logged stays, whatever a plan of today would ask for. For
 * today, and for days nobody answered, it is what the plan asked for the moment before the service came, with the log
 * as it was then: a job does not leave the list as its hour strikes, and none is missed that nobody was asked for.
 * Where nothing was logged yet, the plan of the outset stands.
 */
export function askedBefore(run: Run, nowMs: number, learns: boolean): Schedule {
	const outset = plannedAtOutset(run, nowMs);
	const { asked, answered } = recorded(run, nowMs, outset);
	const today = dayOfInstant(run.timeZone, nowMs);
	const begun = [...asked.keys()].filter((day) => day < today).sort((a, b) => a - b);
	for (const day of [...begun, today]) {
		if (answered.has(day)) continue;
		const [service] = servicesOf(run.timeZone, day, run.services);
		const known = run.log.filter(({ at }) => service && Date.parse(at) < service.atMs);
		if (!service || known.length === 0) continue;
		const isAhead = service.atMs >= nowMs;
		// until its service comes, today is the search's to decide
		const own = isAhead ? undefined : askedThen({ ...run, log: known }, service.atMs, day, asked, learns);
		if (own) asked.set(day, own);
		else asked.delete(day);
	}
	return asked;
}

/** What the plan asked for on a day, just before its service. */
function askedThen(
	run: Run,
	atMs: number,
	day: number,
	asked: Schedule,
	learns: boolean
): Change | undefined {
	const earlier = new Map([...asked].filter(([key]) => key < day));
	const before = recorded(run, atMs, earlier).asked;
	const lessons = learns ? lessonsOf(run, readLog(run.log), atMs) : null;
	return agreed(run, atMs, lessons, before).schedule.get(day);
}

/** The automatic changes the plan asked for before its log began: what an entry without litres refers to. */
function plannedAtOutset(run: Run, nowMs: number): Schedule {
	const begins = firstDay(run, nowMs);
	if (begins === null || (begins - 1) * MS_PER_DAY > nowMs) return new Map();
	const outset = { ...run, log: [] };
	let schedule: Schedule = new Map();
	let walked = march(outset, -Infinity, schedule, false);
	for (let round = 0; walked && round < MOST_ROUNDS; round++) {
		const next = fewestChanges(walked.chances, run.limits);
		if (same(schedule, next)) break;
		schedule = next;
		walked = march(outset, -Infinity, schedule, false);
	}
	const today = dayOfInstant(run.timeZone, nowMs);
	return new Map([...schedule].filter(([key]) => key < today + 1));
}

type Answer = Extract<Fact, { kind: 'done' | 'missed' }>;

/** Entries that say what became of a change. */
const answeredChanges = (run: Run): Answer[] =>
	readLog(run.log).filter(
		(fact): fact is Answer =>
			// an emergency's change has its hour in its number, and no plan asked for it
			(fact.kind === 'done' || fact.kind === 'missed') && /\/change\/\d+$/.test(fact.task)
	);

interface Recorded {
	asked: Map<number, Change>;
	/** services whose change has an entry */
	answered: Set<number>;
}

/** With the changes that an entry answers for, each on the day its id counts. */
function recorded(run: Run, nowMs: number, outset: Schedule): Recorded {
	const asked = new Map(outset);
	const answered = new Set<number>();
	const facts = answeredChanges(run);
	if (facts.length === 0) return { asked, answered };
	const spans = march(run, nowMs, asked, false)?.walk.spans;
	for (const fact of facts) {
		const [id = '', , n] = fact.task.split('/');
		const from = spans?.get(id)?.from;
		const automatic = run.phases.some((phase) => phase.id === id && phase.change && 'auto' in phase.change);
		if (!from || !automatic) continue;
		const natural = dayNumber(from) + Number(n) - 1;
		const key = keyOf(run, fact.task, natural);
		const fraction = shareOf(run, fact, asked.get(key)?.fraction);
		asked.set(key, { fraction, natural });
		answered.add(key);
	}
	return { asked, answered };
}

/** The service a change was done at: the first of its own day, or the one it was put at. */
function keyOf(run: Run, task: string, natural: number): number {
	const move = run.moves[task];
	if (!move) return natural;
	const day = dayNumber(move.day);
	const all = servicesOf(run.timeZone, day, run.services, hoursBeside(run)(day));
	const service = all.find((one) => isPut(move, one));
	return service ? momentKey(service) : day;
}

/** The share that was asked for, as far as what was poured tells: whole percents are asked for, and so they are poured. */
function shareOf(run: Run, fact: Answer, known: number | undefined): number {
	const litres = fact.kind === 'done' && fact.amount ? fact.amount.value : 0;
	const percent = (litres / (run.tank.netL ?? Infinity)) * 100;
	const whole = Math.round(percent);
	if (Math.abs(percent - whole) < WHOLE && whole >= LEAST && whole <= MOST) return whole / 100;
	return known ?? Math.min(MOST, Math.max(LEAST, Math.ceil(percent))) / 100;
}
