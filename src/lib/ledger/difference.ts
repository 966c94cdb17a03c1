import type { Plan, Sample } from '../planner/index.ts';
import { readLog, type Run } from '../run/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { forecastOf, measuresOf, onForecastScale, type Measure } from './measures.ts';

/** A reading beside the forecast it met. Values are on the forecast's scale. */
export interface Difference {
	id: string;
	atMs: number;
	forecast: number;
	reading: number;
	/** forecast minus reading: above zero, the forecast was too high */
	difference: number;
}

/** How wrong the forecast of one measure was. */
export interface Wrongness {
	measure: Measure;
	points: Difference[];
	meanAbsolute: number;
	/** mean of forecast minus reading */
	bias: number;
}

/** What sums of doubles leave behind is no difference. */
const ROUNDING = 1e-9;

function between(forecast: number, reading: number): number {
	const difference = forecast - reading;
	return Math.abs(difference) < ROUNDING ? 0 : difference;
}

/** True where the mean error leans to neither side: it is less than a tenth of the mean size of one (judgment, no source). */
export const leansNowhere = ({ bias, meanAbsolute }: Pick<Wrongness, 'bias' | 'meanAbsolute'>): boolean =>
	Math.abs(bias) <= meanAbsolute / 10;

/** The last sample before a moment's own entries: what was expected when the reading was taken. */
function met(levels: readonly Sample[], times: readonly number[], atMs: number): Sample | undefined {
	const second = Math.floor(atMs / 1000) * 1000;
	const same = times.indexOf(second);
	return same >= 0 ? levels[same] : levels[times.findLastIndex((time) => time <= atMs)];
}

/** Every reading that the forecast speaks of, by measure, in the order of the measures. */
export function differencesOf(
	run: Run,
	plan: Pick<Plan, 'levels'>,
	system: UnitSystem = 'metric'
): Wrongness[] {
	const times = plan.levels.map(({ at }) => Date.parse(at));
	const readings = readLog(run.log).filter((fact) => fact.kind === 'reading');
	return measuresOf(run, system).flatMap((measure) => {
		const points = readings.flatMap((fact): Difference[] => {
			if (fact.what !== measure.what) return [];
			const sample = met(plan.levels, times, fact.atMs);
			const forecast = forecastOf(run, fact.what, sample);
			const reading = onForecastScale(run, fact, sample);
			if (forecast === null || reading === null) return [];
			return [{ id: fact.id, atMs: fact.atMs, forecast, reading, difference: between(forecast, reading) }];
		});
		const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
		if (points.length === 0) return [];
		return [
			{
				measure,
				points,
				meanAbsolute: mean(points.map(({ difference }) => Math.abs(difference))),
				bias: mean(points.map(({ difference }) => difference))
			}
		];
	});
}
