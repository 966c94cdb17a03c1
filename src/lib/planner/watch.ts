import { stay } from '../formulary/index.ts';
import { dayNumber, dayText, type Day, type Run } from '../run/index.ts';
import { dayAt, logOf, sick, type Seen } from './checks/check.ts';
import type { Plan } from './plan.ts';

type Watched = Pick<Seen, 'run' | 'plan' | 'nowMs'>;

const asksTreatment = ['dose', 'dip', 'feed', 'transfer'];
const held = ['hold', 'low-salinity'];

/** What last set the watch back to its first day. */
export interface Trouble {
	day: Day;
	/** a sign that was logged; else something that was given */
	sign: boolean;
}

/** Last day before a day of anything given, or of any sign logged; null: there was none. */
export function lastTrouble({ run, plan, nowMs }: Watched, before: Day): Trouble | null {
	const given = plan.tasks
		.filter(({ kind, date, state }) => asksTreatment.includes(kind) && date < before && state !== 'missed')
		.map(({ date }) => date);
	const yesterday = dayText(dayNumber(before) - 1);
	const holds = plan.phases.flatMap(({ id, from, to }) => {
		const kind = run.phases.find((phase) => phase.id === id)?.kind ?? '';
		if (!held.includes(kind) || from === null || from >= before) return [];
		return [to !== null && to < before ? to : yesterday];
	});
	const treated = [...given, ...holds].sort().at(-1) ?? null;
	const sign = lastSign({ run, plan, nowMs });
	if (sign && sign < before && (!treated || sign >= treated)) return { day: sign, sign: true };
	return treated ? { day: treated, sign: false } : null;
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
	const since = lastTrouble(seen, dayText(dayNumber(today) + 1));
	const cleanDays = since ? Math.max(0, dayNumber(today) - dayNumber(since.day) - 1) : days;
	const last = lastTrouble(seen, '9999-12-31');
	const byStay = dayText(dayNumber(arrived) + stay.totalDays.value);
	const byClean = last ? cleanFrom(last) : byStay;
	return {
		cleanDays,
		cleanAsked: stay.cleanDays.value,
		since,
		days,
		daysAsked: stay.totalDays.value,
		earliest: byClean > byStay ? byClean : byStay
	};
}
