import type { Sample } from '../planner/index.ts';
import { levelOf, spreadOf, type Gauge } from './gauge.ts';
import type { Hue } from './hue.ts';

/** Height of every drawing of levels; y runs down as SVG has it. */
export const drawingHeight = 100;

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

type Point = [x: number, y: number];

const path = (points: readonly Point[]): string =>
	points.length < 2 ? '' : 'M' + points.map(([x, y]) => `${round(x)} ${round(y)}`).join('L');

/** The same points closed down to the bed. */
function bed(points: readonly Point[]): string {
	const first = points[0];
	const last = points.at(-1);
	if (!first || !last || points.length < 2) return '';
	return `${path(points)}L${round(last[0])} ${drawingHeight}L${round(first[0])} ${drawingHeight}Z`;
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

/** Samples that touch a stretch of time, with one neighbour on each side so that lines run off the edge. */
export function within(
	levels: readonly Sample[],
	times: readonly number[],
	fromMs: number,
	toMs: number
): number[] {
	const first = times.findIndex((time) => time >= fromMs);
	if (first < 0) return [];
	const end = times.findIndex((time) => time > toMs);
	const last = end < 0 ? levels.length - 1 : end;
	const picked: number[] = [];
	for (let at = Math.max(0, first - 1); at <= last; at++) picked.push(at);
	return picked;
}

/** The stretch of time that is drawn, and what is drawn on it. */
export interface DrawingFrame {
	fromMs: number;
	toMs: number;
	nowMs: number;
	/** where an instant stands; the drawing's own units */
	xOf: (ms: number) => number;
	readings: readonly Mark[];
}

/** One gauge's level over a stretch of time, as paths. */
export function drawCurve(
	gauge: Gauge,
	levels: readonly Sample[],
	times: readonly number[],
	picked: readonly number[],
	frame: DrawingFrame
): Curve {
	const { fromMs, toMs, nowMs, xOf } = frame;
	const yOf = (level: number) => drawingHeight * (1 - Math.min(1.05, level / gauge.top));
	const points: Point[] = [];
	const upper: Point[] = [];
	const lower: Point[] = [];
	for (const at of picked) {
		const sample = levels[at];
		const level = sample ? levelOf(sample, gauge.key) : null;
		if (!sample || level === null) continue;
		const x = xOf(times[at] ?? 0);
		points.push([x, yOf(level)]);
		const spread = spreadOf(sample, gauge.key);
		if (spread) upper.push([x, yOf(spread.high)]);
		if (spread) lower.unshift([x, yOf(spread.low)]);
	}
	const nowX = nowMs >= fromMs && nowMs < toMs ? xOf(nowMs) : null;
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
			if (window.toMs <= fromMs || window.fromMs >= toMs) return [];
			const x = xOf(Math.max(fromMs, window.fromMs));
			const width = xOf(Math.min(toMs, window.toMs)) - x;
			return [{ x, width, y: yOf(window.high), height: yOf(window.low) - yOf(window.high) }];
		}),
		readings: frame.readings
			.filter((mark) => mark.key === gauge.key && mark.atMs >= fromMs && mark.atMs < toMs)
			.map((mark) => ({ x: xOf(mark.atMs), y: yOf(mark.value) }))
	};
}
