import { kits } from '../../formulary/index.ts';
import type { ReadEvent } from './trace.ts';

/** A test kit's own spread, as a share of the level (judgment, no source), beside what its scale cannot tell apart. */
const KIT_SHARE = 0.1;
/** Steps that scales are printed in, of each power of ten. */
const STEPS = [1, 2, 2.5, 5];
const SAME = 1e-6;

/** No reading is perfect, whatever its scale, mg/L. */
const LEAST_SD = 1e-6;

/** The standard deviation of a reading: a tenth of the level, and a value anywhere within half a step (step / sqrt 12). */
export const noiseSd = (level: number, step: number): number =>
	Math.hypot(KIT_SHARE * level, step / Math.sqrt(12), LEAST_SD);

/**
 * The scale step that the readings themselves show: the widest printed step of which all are whole multiples, but
 * never wider than the coarsest usual kit; 0 where they follow no scale. A log does not say which kit was used.
 */
export function stepOf(readings: readonly ReadEvent[], what: string): number {
	const perShown = Math.max(0, ...readings.map((reading) => reading.perShown));
	const usual = Math.max(0, ...kits.filter((kit) => kit.what === what).map(({ step }) => step.value));
	const shown = readings.map((reading) => reading.shown).filter((value) => value > 0);
	if (shown.length === 0) return usual * perShown;
	const whole = (step: number) =>
		shown.every(
			(value) => Math.abs(value / step - Math.round(value / step)) < SAME * Math.max(1, value / step)
		);
	for (let power = 2; power >= -4; power--)
		for (const unit of STEPS.toReversed()) {
			const step = unit * 10 ** power;
			if (whole(step)) return Math.min(step, usual > 0 ? usual : step) * perShown;
		}
	return 0;
}
