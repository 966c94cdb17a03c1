import type { Plan, Sample } from '../planner/index.ts';
import type { Hue } from './hue.ts';

/** Drawing size of one week's strip: seven days of 100, 100 high; y runs down as SVG has it. */
export const stripWidth = 700;
export const stripHeight = 100;

/** One level to draw, scaled once for the whole run so that weeks can be compared. */
export interface Gauge {
	/** `nh3`, or a medicine's id */
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

export interface Mark {
	atMs: number;
	key: string;
	value: number;
}

export interface Curve {
	key: string;
	label: string;
	hue: Hue;
	/** SVG path data; '' where there is nothing to draw */
	past: string;
	future: string;
	spread: string;
	/** closed down to the bed, past and future, for the one level that is drawn as water; '' for the others */
	water: string;
	limitY: number | null;
	windows: { x: number; y: number; width: number; height: number }[];
	readings: { x: number; y: number }[];
}

export interface Strip {
	curves: Curve[];
	/** where now stands, when it is in this week */
	nowX: number | null;
	/** the same in words, for those who cannot see the drawing */
	text: string;
}

type Point = [x: number, y: number];

/** Reads one gauge's level off a sample; null where the plan does not know it. */
export function levelOf(sample: Sample, key: string): number | null {
	return key === 'nh3' ? sample.nh3MgNPerL : (sample.medicinesMgPerL[key] ?? 0);
}

const bandOf = (sample: Sample, key: string) =>
	key === 'nh3' ? sample.band?.nh3MgNPerL : sample.band?.medicinesMgPerL?.[key];

const path = (points: readonly Point[]): string =>
	points.length < 2 ? '' : 'M' + points.map(([x, y]) => `${round(x)} ${round(y)}`).join('L');

/** The same points closed down to the bed. */
function bed(points: readonly Point[]): string {
	const first = points[0];
	const last = points.at(-1);
	if (!first || !last || points.length < 2) return '';
	return `${path(points)}L${round(last[0])} ${stripHeight}L${round(first[0])} ${stripHeight}Z`;
}

const round = (value: number) => Math.round(value * 10) / 10;

/** Both sides of an upright line through the curve, each ending on it. */
function splitAt(points: readonly Point[], x: number | null): [Point[], Point[]] {
	if (x === null) return [[], points.slice()];
	const before = points.filter((point) => point[0] <= x);
	const after = points.slice(before.length);
	const a = before.at(-1);
	const b = after[0];
	if (!a || !b) return [before, after];
	const meet: Point = [x, a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0] || 1)];
	return [
		[...before, meet],
		[meet, ...after]
	];
}

/** Samples that touch the week, with one neighbour on each side so that lines run off the edge. */
function within(levels: readonly Sample[], times: readonly number[], fromMs: number, toMs: number): number[] {
	const first = times.findIndex((time) => time >= fromMs);
	if (first < 0) return [];
	const end = times.findIndex((time) => time > toMs);
	const last = end < 0 ? levels.length - 1 : end;
	const picked: number[] = [];
	for (let at = Math.max(0, first - 1); at <= last; at++) picked.push(at);
	return picked;
}

/** What a strip needs beside the levels; days are given by the instants (ms) at which they begin, eight for seven days. */
export interface StripFrame {
	midnights: readonly number[];
	nowMs: number;
	gauges: readonly Gauge[];
	readings: readonly Mark[];
	title: string;
}

/** The levels of one week as lines over its seven days. A day keeps its width when the clock changes. */
export function tideStrip(levels: readonly Sample[], times: readonly number[], frame: StripFrame): Strip {
	const { midnights, nowMs, gauges } = frame;
	const fromMs = midnights[0] ?? 0;
	const toMs = midnights[7] ?? fromMs;
	const xOf = (ms: number) => dayPosition(midnights, ms) * 100;
	const picked = within(levels, times, fromMs, toMs);
	const nowX = nowMs >= fromMs && nowMs < toMs ? xOf(nowMs) : null;
	const curves = gauges.map((gauge): Curve => {
		const yOf = (level: number) => stripHeight * (1 - Math.min(1.05, level / gauge.top));
		const points: Point[] = [];
		const upper: Point[] = [];
		const lower: Point[] = [];
		for (const at of picked) {
			const sample = levels[at];
			const level = sample ? levelOf(sample, gauge.key) : null;
			if (!sample || level === null) continue;
			const x = xOf(times[at] ?? 0);
			points.push([x, yOf(level)]);
			const band = bandOf(sample, gauge.key);
			if (band) upper.push([x, yOf(band.high)]);
			if (band) lower.unshift([x, yOf(band.low)]);
		}
		const [past, future] = nowMs >= toMs ? [points, []] : splitAt(points, nowX);
		return {
			key: gauge.key,
			label: gauge.label,
			hue: gauge.hue,
			past: path(past),
			future: path(future),
			water: gauge.limit === null ? '' : bed(points),
			spread: upper.length > 1 ? `${path([...upper, ...lower])}Z` : '',
			limitY: gauge.limit === null ? null : yOf(gauge.limit),
			windows: gauge.windows.flatMap((window) => {
				const x = Math.max(0, xOf(Math.max(fromMs, window.fromMs)));
				const width = xOf(Math.min(toMs, window.toMs)) - x;
				if (width <= 0 || window.toMs <= fromMs) return [];
				return [{ x, width, y: yOf(window.high), height: yOf(window.low) - yOf(window.high) }];
			}),
			readings: frame.readings
				.filter((mark) => mark.key === gauge.key && mark.atMs >= fromMs && mark.atMs < toMs)
				.map((mark) => ({ x: xOf(mark.atMs), y: yOf(mark.value) }))
		};
	});
	return { curves, nowX, text: inWords(levels, picked, frame) };
}

/** Days since the first midnight, the part of a day counted on that day's own length (23, 24 or 25 h). */
export function dayPosition(midnights: readonly number[], ms: number): number {
	for (let day = 0; day < midnights.length - 1; day++) {
		const from = midnights[day] ?? 0;
		const to = midnights[day + 1] ?? from;
		if (ms < to || day === midnights.length - 2) return day + (ms - from) / (to - from);
	}
	return 0;
}

function inWords(levels: readonly Sample[], picked: readonly number[], frame: StripFrame): string {
	const said = frame.gauges.flatMap((gauge) => {
		const values = picked.flatMap((at) => {
			const sample = levels[at];
			const level = sample ? levelOf(sample, gauge.key) : null;
			return level === null ? [] : [level];
		});
		if (values.length === 0) return [];
		const low = Math.min(...values);
		const high = Math.max(...values);
		if (high === 0) return [];
		const limit = gauge.limit === null ? '' : `, limit ${figure(gauge.limit)}`;
		return [`${gauge.label} ${figure(low)} to ${figure(high)} ${gauge.unit}${limit}`];
	});
	return said.length ? `${frame.title}: ${said.join('; ')}.` : `${frame.title}: no forecast.`;
}

/** Two figures that matter, three from 100 on, for reading aloud and for axes. */
export const figure = (level: number): string =>
	level === 0 ? '0' : String(Number(level.toPrecision(level >= 100 ? 3 : 2)));

/** Highest level anywhere in the plan. */
export function peak(plan: Pick<Plan, 'levels'>, key: string): number {
	let highest = 0;
	for (const sample of plan.levels) highest = Math.max(highest, levelOf(sample, key) ?? 0);
	return highest;
}
