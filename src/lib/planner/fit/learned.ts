import type { Run } from '../../run/index.ts';
import type { Learned } from '../plan.ts';
import type { Walk } from '../walk.ts';
import { figure } from '../words.ts';
import type { LossFit } from './loss.ts';
import { NINE_TENTHS } from './production.ts';
import { readingsOf, type ReadEvent } from './trace.ts';

/** What the readings of a run taught, for people: rates before and after, and how wrong the forecast was. */
export const learnedOf = (run: Run, walk: Walk): Learned[] => [
	...ammoniaLearned(run, walk),
	...lossesLearned(walk)
];

function ammoniaLearned(run: Run, { learning, trace }: Walk): Learned[] {
	const fit = learning.ammonia;
	if (!fit || !trace) return [];
	const error = errorOf(readingsOf(trace, 'NH3'), 'mg/L');
	const { central, ...band } = fit.published;
	const made = { value: central, ...band };
	const value = made.value * fit.made.central;
	const production: Learned = {
		of: 'production',
		unit: 'mg N/d',
		before: made,
		after: { value, ...nineTenths(value, made.value * fit.madeSd) },
		readings: fit.taught,
		error,
		because: `${said(fit, 'ammonia', error)}; feed and mass give ${figure(made.value, 1)} mg N a day, the readings ${figure(value, 1)}; ${assumed(fit.step, 'mg/L N', 'feed as logged, pH and new water as stated')}`
	};
	const stated = run.tank.filterClearsLPerDay;
	if (stated === 0 || Math.abs(fit.clears - 1) < 1e-9) return [production];
	const clears = stated * fit.clears;
	const filter: Learned = {
		of: 'filter',
		unit: 'L/d',
		before: { value: stated, low: stated * 0.41, high: stated * 2.45 },
		after: { value: clears, ...nineTenths(clears, stated * fit.clearsSd) },
		readings: fit.taught,
		error,
		because: `The same readings fit a filter that clears ${figure(clears, 0)} L a day better than the ${figure(stated, 0)} L stated; assumed: a seeded sponge clears 0.5 to 3 tank volumes a day (judgment, no source), and clearance and production are told apart only as far as ammonia levels off.`
	};
	return [production, filter];
}

function lossesLearned({ learning, trace, bottles }: Walk): Learned[] {
	return [...learning.losses].flatMap(([index, fit]) => {
		const bottle = bottles[index];
		if (!bottle || !trace) return [];
		const { least, greatest, central } = bottle.loss;
		const error = errorOf(readingsOf(trace, bottle.id), bottle.row.unit);
		const name = bottle.row.name.toLowerCase();
		return [
			{
				of: bottle.id,
				unit: '%/d',
				before: { value: percent(central), low: percent(least), high: percent(greatest) },
				after: {
					value: percent(fit.perDay.central),
					low: Math.min(percent(fit.perDay.low), percent(fit.perDay.central)),
					high: percent(fit.perDay.high)
				},
				readings: fit.taught,
				error,
				because: `${said(fit, name, error)}; ${figure(percent(least), 1)} to ${figure(percent(greatest), 1)} % a day may be lost, the readings say ${figure(percent(fit.perDay.central), 1)} %; ${assumed(fit.step, bottle.row.unit, 'doses, changes and volume as logged; doses still leave room for the least loss')}`
			}
		];
	});
}

const percent = (perDay: number): number => 100 * -Math.expm1(-perDay);

const nineTenths = (value: number, sd: number) => ({
	low: Math.max(0, value - NINE_TENTHS * sd),
	high: value + NINE_TENTHS * sd
});

function errorOf(readings: readonly ReadEvent[], unit: Learned['error']['unit']): Learned['error'] {
	const off = readings.map(({ level, forecast }) => level - forecast);
	const mean = (values: number[]) =>
		values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
	return { meanAbsolute: mean(off.map(Math.abs)), bias: mean(off), unit };
}

function said(
	{ taught, unexplained }: Pick<LossFit, 'taught' | 'unexplained'>,
	name: string,
	error: Learned['error']
): string {
	const bias = figure(Math.abs(error.bias), 3);
	const sign = bias === '0' ? '' : error.bias < 0 ? '−' : '+';
	const off = `${figure(error.meanAbsolute, 3)} ${error.unit} off the forecast (bias ${sign}${bias})`;
	const aside = unexplained > 0 ? `, ${unexplained} more could not be explained and taught nothing` : '';
	return `${taught} ${taught === 1 ? 'reading' : 'readings'} of ${name}, ${off}${aside}`;
}

const assumed = (step: number, unit: string, rest: string): string =>
	`assumed: a kit that is right within 10 % and half a step${step > 0 ? ` of ${figure(step, 3)} ${unit}` : ''}, ${rest}.`;
