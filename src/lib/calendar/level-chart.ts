import type { Plan, Sample } from '../planner/index.ts';
import { drawCurve, drawingHeight, within, type Curve, type Mark } from './curve.ts';
import { figure, levelOf, type Gauge } from './gauge.ts';

/** Drawing width of the chart; every panel is as high as a strip. */
export const chartWidth = 1000;

/** The part of the run that is looked at, instants in ms. */
export interface View {
	fromMs: number;
	toMs: number;
}

/** One level over the view, with the figures that stand at its side. */
export interface Panel {
	curve: Curve;
	unit: string;
	ticks: { y: number; text: string }[];
}

export interface LevelChart {
	panels: Panel[];
	/** beginnings of days in the view, with the day's number in `days` */
	days: { x: number; day: number }[];
	nowX: number | null;
	/** where the moment that is read stands; null outside the view */
	cursorX: number | null;
}

/** The whole run, from its first sample to its last. */
export const wholeRun = (plan: Pick<Plan, 'levels'>): View => {
	const first = Date.parse(plan.levels[0]?.at ?? '1970-01-01T00:00:00Z');
	const last = Date.parse(plan.levels.at(-1)?.at ?? '1970-01-02T00:00:00Z');
	return { fromMs: first, toMs: Math.max(last, first + 1) };
};

/** A view `factor` times as wide about an instant, never wider than the run nor narrower than a day. */
export function zoomed(view: View, whole: View, aboutMs: number, factor: number): View {
	const most = whole.toMs - whole.fromMs;
	const width = Math.min(most, Math.max(86_400_000, (view.toMs - view.fromMs) * factor));
	const share = (aboutMs - view.fromMs) / (view.toMs - view.fromMs);
	const fromMs = Math.min(whole.toMs - width, Math.max(whole.fromMs, aboutMs - share * width));
	return { fromMs, toMs: fromMs + width };
}

/** The same view moved so that an instant stands in its middle, as far as the run reaches. */
export function centred(view: View, whole: View, ms: number): View {
	const half = (view.toMs - view.fromMs) / 2;
	return zoomed({ fromMs: ms - half, toMs: ms + half }, whole, ms, 1);
}

/** The instant at a share, 0 to 1, of the view's width. */
export const instantAt = (view: View, share: number): number =>
	view.fromMs + share * (view.toMs - view.fromMs);

/** Heights of the figures at a panel's side: bed, limit or window, none within 12 of another. */
function ticksOf(gauge: Gauge): Panel['ticks'] {
	const wished = [
		0,
		...(gauge.limit === null ? [] : [gauge.limit]),
		...gauge.windows.flatMap(({ low, high }) => [high, low])
	];
	const values = gauge.limit === null && gauge.windows.length === 0 ? [0, gauge.top] : wished;
	const ticks: Panel['ticks'] = [];
	for (const value of values) {
		const y = drawingHeight * (1 - value / gauge.top);
		if (ticks.every((tick) => Math.abs(tick.y - y) >= 12)) ticks.push({ y, text: figure(value) });
	}
	return ticks;
}

/** A panel for each gauge. `midnights` are the beginnings of the run's days. */
export function levelChart(
	levels: readonly Sample[],
	times: readonly number[],
	frame: {
		view: View;
		nowMs: number;
		cursorMs: number;
		gauges: readonly Gauge[];
		readings: readonly Mark[];
		midnights: readonly number[];
	}
): LevelChart {
	const { view, nowMs, readings } = frame;
	const inView = (ms: number) => ms >= view.fromMs && ms <= view.toMs;
	const xOf = (ms: number) => ((ms - view.fromMs) / (view.toMs - view.fromMs)) * chartWidth;
	const picked = within(levels, times, view.fromMs, view.toMs);
	const drawing = { ...view, nowMs, xOf, readings };
	return {
		panels: frame.gauges.map((gauge) => ({
			curve: drawCurve(gauge, levels, times, picked, drawing),
			unit: gauge.unit,
			ticks: ticksOf(gauge)
		})),
		days: frame.midnights.flatMap((ms, day) => (inView(ms) ? [{ x: xOf(ms), day }] : [])),
		nowX: inView(nowMs) ? xOf(nowMs) : null,
		cursorX: inView(frame.cursorMs) ? xOf(frame.cursorMs) : null
	};
}

/** The values of every gauge at one sample, in the order of the gauges; `unknown` where the plan has none. */
export const valuesAt = (sample: Sample, gauges: readonly Gauge[]): string[] =>
	gauges.map((gauge) => {
		const level = levelOf(sample, gauge.key);
		return level === null ? 'unknown' : figure(level);
	});

/** What is logged so long after a service counts as its jobs. */
const JOBS_TAKE_MS = 12 * 3_600_000;

/**
 * Samples that can be stepped through and listed: one before and one after the jobs of each service. Jobs that were
 * logged moved the water when they were done, so the one after them stands where the last of them is.
 */
export function serviceSamples(levels: readonly Sample[]): Sample[] {
	return levels.flatMap((sample, at) => {
		if (sample.when === 'between') return [];
		if (sample.when === 'before') return [sample];
		const next = levels.findIndex(({ when }, later) => later > at && when === 'before');
		const until = Date.parse(sample.at) + JOBS_TAKE_MS;
		const done = levels
			.slice(at + 1, next < 0 ? undefined : next)
			.findLast((one) => Date.parse(one.at) <= until);
		return [done ? { ...done, when: sample.when } : sample];
	});
}

/** Every so many days is named that no more than `most` are: the same step throughout. */
export function namedDays(days: LevelChart['days'], most: number): LevelChart['days'] {
	const step = Math.max(1, Math.ceil(days.length / most));
	return days.filter(({ day }) => day % step === 0);
}
