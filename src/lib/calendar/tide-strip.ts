import type { Sample } from '../planner/index.ts';
import { drawCurve, drawingHeight, within, type Curve, type Mark } from './curve.ts';
import { figure, levelOf, type Gauge } from './gauge.ts';

/** Drawing size of one week's strip: seven days of 100, 100 high. */
export const stripWidth = 700;
export const stripHeight = drawingHeight;

export interface Strip {
	curves: Curve[];
	/** where now stands, when it is in this week */
	nowX: number | null;
	/** the same in words, for those who cannot see the drawing */
	text: string;
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
	const { midnights, nowMs, gauges, readings } = frame;
	const fromMs = midnights[0] ?? 0;
	const toMs = midnights[7] ?? fromMs;
	const xOf = (ms: number) => dayPosition(midnights, ms) * 100;
	const picked = within(levels, times, fromMs, toMs);
	const drawing = { fromMs, toMs, nowMs, xOf, readings };
	return {
		curves: gauges.map((gauge) => drawCurve(gauge, levels, times, picked, drawing)),
		nowX: nowMs >= fromMs && nowMs < toMs ? xOf(nowMs) : null,
		text: inWords(levels, picked, frame)
	};
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
