import { urgentFirst, type Finding, type Plan } from '../planner/index.ts';
import { dayNumber, dayText, weekday, type Day, type Phase, type Run } from '../run/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { chipsOf, type Chip, type ShelfMarks } from './chip.ts';
import { medicineHues, phaseHue, type Hue } from './hue.ts';
import { isoWeek } from './iso-week.ts';
import { lanesOf } from './lane.ts';
import type { Mark } from './curve.ts';
import { gaugesOf } from './gauge.ts';
import { tideStrip, type Strip } from './tide-strip.ts';

/** A phase's share of one week; columns are 0 to 6, both ends included. */
export interface BandPiece {
	phase: string;
	/** number of the row in the sheet */
	row: number;
	label: string;
	hue: Hue;
	kind: Phase['kind'];
	lane: number;
	from: number;
	to: number;
	/** the phase begins (ends) in this week */
	opens: boolean;
	closes: boolean;
	/** the whole span, for dragging its ends */
	span: { from: Day; to: Day };
}

export interface DayCell {
	day: Day;
	/** day of the month */
	number: number;
	today: boolean;
	/** the run begins */
	begins: boolean;
	past: boolean;
	away: boolean;
	/** before the run begins or after it ends */
	outside: boolean;
	/** phases that are active, by id */
	phases: string[];
	chips: Chip[];
	findings: Finding[];
}

export interface Week {
	first: Day;
	/** ISO week of the week's Thursday */
	number: number;
	days: DayCell[];
	bands: BandPiece[];
	lanes: number;
	strip: Strip;
}

/** What the layout is told beside the plan. Everything that depends on a place or a clock comes in here. */
export interface Almanac {
	today: Day;
	nowMs: number;
	/** 1 Monday to 7 Sunday */
	firstWeekday: number;
	/** the instant, in ms, at which a day begins in the run's zone */
	startOf: (day: Day) => number;
	/** name and short name of each medicine, by id */
	names: Record<string, { name: string; short: string }>;
	readings: readonly Mark[];
	/** the keeper's units */
	system: UnitSystem;
	/** a week's title for the spoken strip */
	titleOf: (first: Day, last: Day) => string;
}

/** A window with as many places on either side: `0.15–0.20`. */
function windowText({ low, high }: { low: number; high: number }): string {
	if (low === high) return String(low);
	const places = Math.max(...[low, high].map((edge) => String(edge).split('.')[1]?.length ?? 0));
	return `${low.toFixed(places)}–${high.toFixed(places)}`;
}

/** A phase in a few words: `Ionic copper, hold 0.15–0.20 mg/L`. */
export function phaseLabel(phase: Phase, name: string | null, unit: string): string {
	const kind = phase.kind.replace('-', ' ');
	const level = phase.level === null ? '' : ` ${windowText(phase.level)} ${unit}`;
	if (name === null || phase.kind === 'washout') return kind.charAt(0).toUpperCase() + kind.slice(1);
	const doses = phase.lasts && 'doses' in phase.lasts ? ` ${phase.lasts.doses} ×` : '';
	return `${name}, ${kind}${doses}${level}`;
}

const unitOf = (phase: Phase, run: Run): string => {
	if (phase.kind === 'low-salinity') return 'ppt';
	const active = run.medicines.find((medicine) => medicine.id === phase.medicine)?.active ?? '';
	return active.startsWith('formalin') ? 'µL/L' : 'mg/L';
};

/** Marks for chips and bands, by medicine id. */
export function shelfMarks(run: Run, names: Almanac['names']): ShelfMarks {
	const hues = medicineHues(run.medicines);
	return Object.fromEntries(
		run.medicines.map(({ id }) => [
			id,
			{ short: names[id]?.short ?? id, name: names[id]?.name ?? id, hue: hues[id] ?? ('violet' as const) }
		])
	);
}

interface Placed {
	phase: Phase;
	row: number;
	from: number;
	to: number;
	lane: number;
}

/** Each dated phase in a lane that is free on all its days. */
function inLanes(plan: Plan, run: Run): Placed[] {
	const spans = new Map(plan.phases.map((span) => [span.id, span]));
	const placed = run.phases.flatMap((phase, index) => {
		const span = spans.get(phase.id);
		if (!span?.from || !span.to) return [];
		return [{ phase, row: index + 1, from: dayNumber(span.from), to: dayNumber(span.to), lane: 0 }];
	});
	const lanes = lanesOf(placed);
	return placed.map((band, at) => ({ ...band, lane: lanes[at] ?? 0 }));
}

/** The first and last day worth drawing. */
function reach(plan: Plan, bands: readonly Placed[], today: number): [number, number] {
	const days = [
		...plan.tasks.map((task) => dayNumber(task.date)),
		...bands.flatMap((band) => [band.from, band.to])
	];
	if (plan.begins) days.push(dayNumber(plan.begins));
	return days.length ? [Math.min(...days), Math.max(...days)] : [today, today];
}

/**
 * The plan as weeks of seven days: bands in lanes, each day's jobs, findings, and the tide strip below.
 * Days and boundaries are those of the plan; nothing here looks at a clock.
 */
export function layWeeks(plan: Plan, run: Run, almanac: Almanac): Week[] {
	const bands = inLanes(plan, run);
	const today = dayNumber(almanac.today);
	const [begin, end] = reach(plan, bands, today);
	const marks = shelfMarks(run, almanac.names);
	const hues = medicineHues(run.medicines);
	const gauges = gaugesOf(plan, run, almanac);
	const times = plan.levels.map((sample) => Date.parse(sample.at));
	const away = new Set(run.away);
	const tasks = Map.groupBy(urgentFirst(plan.tasks), (task) => task.date);
	const findings = Map.groupBy(plan.findings, (finding) => finding.date);

	const dayCell = (number: number): DayCell => {
		const day = dayText(number);
		return {
			day,
			number: Number(day.slice(8)),
			today: number === today,
			begins: day === plan.begins,
			past: number < today,
			away: away.has(day),
			outside: number < begin || number > end,
			phases: bands.filter((band) => band.from <= number && number <= band.to).map((band) => band.phase.id),
			chips: chipsOf(tasks.get(day) ?? [], marks, almanac.system),
			findings: findings.get(day) ?? []
		};
	};

	const bandPiece = (band: Placed, first: number): BandPiece => ({
		phase: band.phase.id,
		row: band.row,
		label: phaseLabel(
			band.phase,
			band.phase.medicine === null ? null : (marks[band.phase.medicine]?.name ?? band.phase.medicine),
			unitOf(band.phase, run)
		),
		hue: phaseHue(band.phase, hues),
		kind: band.phase.kind,
		lane: band.lane,
		from: Math.max(0, band.from - first),
		to: Math.min(6, band.to - first),
		opens: band.from >= first,
		closes: band.to <= first + 6,
		span: { from: dayText(band.from), to: dayText(band.to) }
	});

	const weeks: Week[] = [];
	const back = (weekday(begin) - almanac.firstWeekday + 7) % 7;
	for (let first = begin - back; first <= end; first += 7) {
		const here = bands.filter((band) => band.from <= first + 6 && band.to >= first);
		const midnights = Array.from({ length: 8 }, (_, at) => almanac.startOf(dayText(first + at)));
		const frame = { midnights, nowMs: almanac.nowMs, gauges, readings: almanac.readings };
		const title = almanac.titleOf(dayText(first), dayText(first + 6));
		weeks.push({
			first: dayText(first),
			number: isoWeek(first + ((4 - weekday(first) + 7) % 7)),
			days: Array.from({ length: 7 }, (_, at) => dayCell(first + at)),
			bands: here.map((band) => bandPiece(band, first)),
			lanes: Math.max(0, ...here.map((band) => band.lane + 1)),
			strip: tideStrip(plan.levels, times, { ...frame, title })
		});
	}
	return weeks;
}
