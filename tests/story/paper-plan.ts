import { shortDay } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import { minutesFor, type PaperJob } from './paper-job.ts';
import {
	ammoniaTest,
	near,
	changeJob,
	clear,
	copperDose,
	copperTest,
	nitrateTest,
	plainJob,
	praziquantelDose
} from './paper-jobs.ts';
import { isChangeDay, rowsOf, within } from './paper-rows.ts';
import { says } from './says.ts';

/** Copper begins to count again with the fish of the tenth day, and the wash-out takes a day more than was planned. */
export const spans = rowsOf(37, 6);

/** Everything that is due on a day, in working order, before any of it is done. `forecast` is copper as the screen has it. */
export function jobsOf(
	day: number,
	tank: HandTank,
	forecast: number,
	changes: readonly number[]
): PaperJob[] {
	if (within(day, spans.settle)) return settleJobs(day, tank);
	if (within(day, spans.copper)) return copperJobs(day, tank, forecast);
	if (within(day, spans.wash)) return washJobs(day, tank);
	if (within(day, spans.watch)) return watchJobs(day, tank, changes);
	return [plainJob('release/release/1', minutesFor.release), plainJob('release/clean/1', minutesFor.strip)];
}

function settleJobs(day: number, tank: HandTank): PaperJob[] {
	const test = ammoniaTest(`settle/test/${day + 1}`, tank, minutesFor.test);
	const takeIn = plainJob('settle/acclimate/1', minutesFor.takeIn, says`Take in 4 banded cardinalfish`);
	if (day === 0) return [test, takeIn];
	return day === 2 ? [plainJob('settle/observe/3', minutesFor.look), test] : [test];
}

function copperJobs(day: number, tank: HandTank, forecast: number): PaperJob[] {
	const n = day - 2;
	const kept = isChangeDay(day, spans) ? 1 - tank.share : 1;
	const half = minutesFor.test / 2;
	const found = [forecast - near, forecast + near] as const;
	const dose = copperDose(`copper/dose/${n}`, tank, found, kept, tank.copperMgPerL());
	return [
		copperTest(`copper/test/${n}#Cu`, forecast, half),
		ammoniaTest(`copper/test/${n}#NH3`, tank, half),
		...(isChangeDay(day, spans) ? [changeJob(`copper/change/${n}`, tank)] : []),
		...(dose ? [dose] : []),
		...spans.flukes.flatMap((due, at) =>
			due === day ? [praziquantelDose(`flukes/dose/${at + 1}`, tank, kept)] : []
		)
	];
}

function washJobs(day: number, tank: HandTank): PaperJob[] {
	const n = day - 37;
	const goesOn = tank.copperMgPerL() > clear;
	const test = copperTest(`wash/test/${n}`, tank.loss.forecastAt(day, '08:00', 0), minutesFor.test);
	if (!goesOn) return [test, plainJob(`wash/equipment/${n}`, minutesFor.equipment)];
	const carbon = n === 1 ? [plainJob('wash/equipment/1', minutesFor.equipment)] : [];
	return [test, changeJob(`wash/washout/${n}`, tank), ...carbon];
}

function watchJobs(day: number, tank: HandTank, changes: readonly number[]): PaperJob[] {
	const n = day - 43;
	const [ammonia, nitrate] = [n % 2 === 1 && n < 14, n % 7 === 1];
	const both = ammonia && nitrate;
	const minutes = both ? minutesFor.test / 2 : minutesFor.test;
	return [
		...(n === 14 ? [plainJob('watch/observe/14', minutesFor.look)] : []),
		...(ammonia ? [ammoniaTest(`watch/test/${n}${both ? '#NH3' : ''}`, tank, minutes)] : []),
		...(nitrate ? [nitrateTest(`watch/test/${n}${both ? '#NO3' : ''}`, minutes)] : []),
		...(changes.includes(day) ? [changeJob(`watch/change/${n}`, tank)] : [])
	];
}

/** The next day with a job after a day of the watch that has none. */
export function nextDue(day: number, tank: HandTank, changes: readonly number[]): string {
	for (let next = day + 1; next <= spans.release[0]; next++)
		if (jobsOf(next, tank, 0, changes).length > 0) return shortDay(next);
	return '';
}
