import { stay } from '../formulary/index.ts';
import { dayNumber, dayText, type Day, type Run } from '../run/index.ts';
import { dayAt, logOf, sick, type Seen } from './checks/check.ts';
import type { Plan, Task } from './plan.ts';

type Watched = Pick<Seen, 'run' | 'plan' | 'nowMs'>;

const asksTreatment = ['dose', 'dip', 'feed', 'transfer'];
const held = ['hold', 'low-salinity'];

/** What last set the watch back to its first day. */
export interface Trouble {
	day: Day;
	/** a sign that was logged; else something that was given */
	sign: boolean;
}

/** Last day before a day of anything given or planned, or of any sign logged; null: there was none. */
export const lastTrouble = (seen: Watched, before: Day): Trouble | null =>
	latest(seen, before, ({ date, state }) => date < before && state !== 'missed');

/**
 * The last day up to today of anything given, or of any sign logged; null: there was none. What is due today counts once
 * it is given; what nobody answered for on an earlier day may have been.
 */
function troubleSoFar(seen: Watched, today: Day): Trouble | null {
	const tomorrow = dayText(dayNumber(today) + 1);
	return latest(seen, tomorrow, (task) =>
		task.date < today ? task.state !== 'missed' : task.date === today && isGiven(task)
	);
}

const isGiven = ({ state }: Task): boolean => state === 'done' || state === 'late' || state === 'partly';

function latest(seen: Watched, before: Day, counts: (task: Task) => boolean): Trouble | null {
	const given = seen.plan.tasks
		.filter((task) => asksTreatment.includes(task.kind) && counts(task))
		.map(({ date }) => date);
	const treated =
		[...given, ...dosesLogged(seen, before), ...holdDays(seen, before, counts)].sort().at(-1) ?? null;
	const sign = lastSign(seen);
	if (sign && sign < before && (!treated || sign >= treated)) return { day: sign, sign: true };
	return treated ? { day: treated, sign: false } : null;
}

/** Days of what was given though no job asked for it. */
const dosesLogged = (seen: Watched, before: Day): Day[] =>
	logOf(seen)
		.flatMap((entry) => (entry.kind === 'dose' ? [dayAt(seen, entry.atMs)] : []))
		.filter((day) => day < before);

/** A hold treats on each of its days, on its first once something was done for it. */
function holdDays({ run, plan }: Watched, before: Day, counts: (task: Task) => boolean): Day[] {
	const yesterday = dayText(dayNumber(before) - 1);
	return plan.phases.flatMap(({ id, from, to }) => {
		const kind = run.phases.find((phase) => phase.id === id)?.kind ?? '';
		if (!held.includes(kind) || from === null || from >= before) return [];
		const begins = ({ phase, date, kind: of }: Task) =>
			phase === id && date === from && ['dose', 'salinity'].includes(of);
		if (
			from === yesterday &&
			plan.tasks.some(begins) &&
			!plan.tasks.some((task) => begins(task) && counts(task))
		)
			return [];
		return [to !== null && to < before ? to : yesterday];
	});
}

/** The last day on which a sign was logged. */
export const lastSign = (seen: Watched): Day | null =>
	logOf(seen)
		.flatMap((entry) =>
			entry.kind === 'observation' && sick(entry.signs).length > 0 ? [dayAt(seen, entry.atMs)] : []
		)
		.sort()
		.at(-1) ?? null;

/** The last day on which fish joined. */
export function lastArrival(seen: Watched): Day | null {
	const days = [
		...seen.run.lots.flatMap((lot) => lot.arrived ?? []),
		...logOf(seen).flatMap((entry) =>
			entry.kind === 'fish' && (entry.lot !== undefined || entry.count > 0) ? [dayAt(seen, entry.atMs)] : []
		)
	];
	return days.sort().at(-1) ?? seen.plan.begins;
}

/** First day on which the fish may go, as far as clean days ask. */
export const cleanFrom = ({ day }: Trouble): Day => dayText(dayNumber(day) + stay.cleanDays.value + 1);

/** How far the watch before release has come by now. */
export interface WatchClock {
	/** whole days without a sign or a treatment, up to yesterday */
	cleanDays: number;
	cleanAsked: number;
	/** what set it back last; null: nothing has */
	since: Trouble | null;
	/** something is to be given today that was not yet: it sets the watch back once it is */
	due: boolean;
	/** days since the last fish arrived */
	days: number;
	daysAsked: number;
	/** earliest day of release, what is planned included; null while nobody has arrived */
	earliest: Day | null;
}

/** The watch clock of a run; null before its fish are there. */
export function watchClock(run: Run, plan: Plan, now: string): WatchClock | null {
	const seen = { run, plan, nowMs: Date.parse(now) };
	const today = dayAt(seen, seen.nowMs);
	const arrived = lastArrival(seen);
	if (!arrived || arrived > today) return null;
	const days = dayNumber(today) - dayNumber(arrived);
	const since = troubleSoFar(seen, today);
	const cleanDays = since ? Math.max(0, dayNumber(today) - dayNumber(since.day) - 1) : days;
	const last = lastTrouble(seen, '9999-12-31');
	const byStay = dayText(dayNumber(arrived) + stay.totalDays.value);
	const byClean = last ? cleanFrom(last) : byStay;
	return {
		cleanDays,
		cleanAsked: stay.cleanDays.value,
		since,
		due: plan.tasks.some(
			({ kind, date, state }) =>
				asksTreatment.includes(kind) && date === today && (state === 'open' || state === 'planned')
		),
		days,
		daysAsked: stay.totalDays.value,
		earliest: byClean > byStay ? byClean : byStay
	};
}
