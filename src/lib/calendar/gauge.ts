import type { Plan, Sample } from '../planner/index.ts';
import { dayNumber, dayText, type Day, type Run } from '../run/index.ts';
import { medicineHues, type Hue } from './hue.ts';

/** One level to draw, scaled once for the whole run so that weeks can be compared. */
export interface Gauge {
	/** `nh3`, `nitrate`, or a medicine's id */
	key: string;
	label: string;
	unit: string;
	hue: Hue;
	/** level at the top of the strip */
	top: number;
	/** never to be passed; drawn dotted */
	limit: number | null;
	/** where it should stay, over the days of the phases that ask it: instants in ms, levels in `unit` */
	windows: readonly { fromMs: number; toMs: number; low: number; high: number }[];
}

/** Reads one gauge's level off a sample; null where the plan does not know it. */
export function levelOf(sample: Sample, key: string): number | null {
	if (key === 'nh3') return sample.nh3MgNPerL;
	return key === 'nitrate' ? sample.nitrateMgPerL : (sample.medicinesMgPerL[key] ?? 0);
}

/** The forecast's spread of one gauge's level; absent where it is nil. */
export const spreadOf = (sample: Sample, key: string) =>
	key === 'nh3' ? sample.band?.nh3MgNPerL : sample.band?.medicinesMgPerL?.[key];

/** Two figures that matter, three from 100 on, for reading aloud and for axes. */
export const figure = (level: number): string =>
	level === 0 ? '0' : String(Number(level.toPrecision(level >= 100 ? 3 : 2)));

/** Highest level anywhere in the plan. */
function peak(plan: Pick<Plan, 'levels'>, key: string): number {
	let highest = 0;
	for (const sample of plan.levels) highest = Math.max(highest, levelOf(sample, key) ?? 0);
	return highest;
}

/** What the gauges are told beside plan and run. */
export interface GaugePlace {
	/** the instant, in ms, at which a day begins in the run's zone */
	startOf: (day: Day) => number;
	names: Record<string, { name: string }>;
}

/** What the strips draw: toxic ammonia under its limit, and each medicine with the window its phases ask. */
export function gaugesOf(plan: Plan, run: Run, place: GaugePlace): Gauge[] {
	const hues = medicineHues(run.medicines);
	const limit = run.limits.nh3MgNPerL;
	const gauges: Gauge[] = [];
	if (plan.levels.some((sample) => sample.nh3MgNPerL !== null)) {
		const top = Math.max(2.4 * limit, 1.1 * peak(plan, 'nh3'));
		gauges.push({
			key: 'nh3',
			label: 'Toxic ammonia (NH₃-N)',
			unit: 'mg/L',
			hue: 'limit',
			top,
			limit,
			windows: []
		});
	}
	for (const medicine of run.medicines) {
		const highest = peak(plan, medicine.id);
		const asked = run.phases.filter(
			(phase) => phase.medicine === medicine.id && phase.kind === 'hold' && phase.level !== null
		);
		const most = Math.max(0, ...asked.map((phase) => phase.level?.high ?? 0), medicine.ceiling ?? 0);
		if (highest === 0 && most === 0) continue;
		const windows = asked.flatMap((phase) => {
			const span = plan.phases.find(({ id }) => id === phase.id);
			if (!span?.from || !span.to || !phase.level) return [];
			const toMs = place.startOf(dayText(dayNumber(span.to) + 1));
			return [{ fromMs: place.startOf(span.from), toMs, low: phase.level.low, high: phase.level.high }];
		});
		const hue = hues[medicine.id] ?? 'violet';
		const name = place.names[medicine.id]?.name ?? medicine.id;
		const unit = medicine.active.startsWith('formalin') ? 'µL/L' : 'mg/L';
		// the lines of reference keep apart: the limit at 0.42, a window's top at 0.85, a pulse's peak at 0.58
		const top = most > 0 ? Math.max(most / 0.85, 1.05 * highest) : highest / 0.58;
		gauges.push({ key: medicine.id, label: name, unit, hue, top, limit: null, windows });
	}
	return gauges;
}

/** What the chart of the whole run draws: the same, and nitrate. */
export function chartGauges(plan: Plan, run: Run, place: GaugePlace): Gauge[] {
	const limit = run.limits.nitrateMgPerL;
	const top = Math.max(1.3 * limit, 1.1 * peak(plan, 'nitrate'));
	const nitrate: Gauge = {
		key: 'nitrate',
		label: 'Nitrate (NO₃)',
		unit: 'mg/L',
		hue: 'slate',
		top,
		limit,
		windows: []
	};
	return [...gaugesOf(plan, run, place), ...(plan.levels.length > 0 ? [nitrate] : [])];
}
