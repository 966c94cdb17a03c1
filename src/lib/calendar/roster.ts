import type { Plan } from '../planner/index.ts';
import { dayNumber, dayText, type Day, type Run } from '../run/index.ts';
import { medicineHues, phaseHue, type Hue } from './hue.ts';

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
}

/** `start` and `width` are shares of the roster's whole span, 0 to 1. */
export interface RosterBand {
	phase: string;
	from: Day;
	to: Day;
	hue: Hue;
	start: number;
	width: number;
}

export interface Roster {
	rows: RosterRow[];
	from: Day | null;
	to: Day | null;
	/** where today falls in the span, 0 to 1; null outside it */
	today: number | null;
}

/** All runs against the same days. A phase's last day belongs to its band. */
export function rosterOf(runs: readonly { id: string; run: Run; plan: Plan }[], today: Day): Roster {
	const days = runs.flatMap(({ plan }) =>
		plan.phases.flatMap(({ from, to }) => [from, to].filter((day) => day !== null))
	);
	const from = days.reduce<Day | null>((least, day) => (least === null || day < least ? day : least), null);
	const to = days.reduce<Day | null>((most, day) => (most === null || day > most ? day : most), null);
	const first = from === null ? 0 : dayNumber(from);
	const span = to === null ? 1 : dayNumber(to) + 1 - first;
	const share = (day: Day) => (dayNumber(day) - first) / span;
	const at = from === null ? -1 : share(today);
	return {
		rows: runs.map(({ id, run, plan }) => rowOf(id, run, plan, today, share, span)),
		from,
		to,
		today: at >= 0 && at <= 1 ? at : null
	};
}

function rowOf(
	id: string,
	run: Run,
	plan: Plan,
	today: Day,
	share: (day: Day) => number,
	span: number
): RosterRow {
	const hues = medicineHues(run.medicines);
	const count = (severity: string) => plan.findings.filter((finding) => finding.severity === severity).length;
	const bands = plan.phases.flatMap((phaseSpan): RosterBand[] => {
		const phase = run.phases.find((one) => one.id === phaseSpan.id);
		if (!phase || phaseSpan.from === null) return [];
		const to = phaseSpan.to ?? dayText(Math.max(dayNumber(phaseSpan.from), dayNumber(today)));
		const start = share(phaseSpan.from);
		return [
			{
				phase: phase.id,
				from: phaseSpan.from,
				to,
				hue: phaseHue(phase, hues),
				start,
				width: share(to) + 1 / span - start
			}
		];
	});
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
		bands
	};
}
