import { datedFar, shortDay } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import { says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** Before a day of copper is earned: its 28 days from the sixth day on, four halvings, a test, fourteen days of watching. */
const release = 6 + 28 + 4 + 1 + 14;

/** A dose of the day before that nobody logged, and what each way to go on does to the release: a day is lost, and counting again costs a second. */
export const missedDose: Part = {
	where: '[data-missed="copper/dose/3"]',
	says: [
		says`Ionic copper 3.6 mL, ${shortDay(5)}: not logged. Until the next service the plan takes it as done: say before then what became of it. (judgment, no source)`,
		says`Proposed: give it now, 3.6 mL. Release ${datedFar(release)}, 1 day later than planned. A hold loses only the hours it was under its floor. What is given leads from the level now to the aim and never past the ceiling; who is not sure that it was missed reads the level first. (judgment, no source)`,
		says`: take this way for Ionic copper 3.6 mL`,
		says`Leave it to the next make-up: release ${datedFar(release)}, 1 day later than planned.`,
		says`Count the whole course again: release ${datedFar(release + 1)}, 2 days later than planned.`,
		says`: Ionic copper 3.6 mL`
	]
};

/** Copper that counts from a day on: 28 days of it, four halvings, a test, fourteen days of watching. */
export const standsAfterAway = (from: number): number => from + 28 + 4 + 1 + 14;

/** With the fish of the tenth day everything counts from the eleventh on. */
const soonest = 10;
const floor = 0.15;

/**
 * The first day from which the level of the eleventh day on keeps the floor to the next, by what is forecast: nothing is
 * given on the two days away, and on the morning after them a quarter is changed and as much given as leads to the aim,
 * or to 0.20 mg/L if nothing was lost.
 */
export function countsFrom(tank: HandTank): number {
	const { loss } = tank;
	const found = [0, 1, 2].map((n) => loss.forecastAt(soonest + n));
	const low = found.findLastIndex((level) => level < floor);
	const kept = 0.75;
	const after = loss.forecastAt(12) * kept;
	const made = tank.riseOf(tank.topUpMl(after, tank.copperMgPerL() * kept));
	const next = (after + made) * Math.exp(-loss.estimate().loss);
	if (next < floor) throw new Error('paper knows no day from which copper counts');
	return soonest + Math.max(0, low);
}

/** What a late test may still bring. */
export const hope = (): Said =>
	says`${late} By the forecast it has fallen under 0.15 mg/L, and days under it do not count. If it reads 0.15 mg/L or more they do: release ${datedFar(standsAfterAway(soonest))}.`;

const late =
	'A level counts while a test vouches for it, two days at most: days past those two count only from the next test on.';

/**
 * Two days of tests that nobody made: a test is at most 48 hours old (common practice, no source), and the test of this
 * morning vouches for both days, if the level did not fall. `from`: the day from which copper counts by the forecast.
 */
export const missedTests = (from: number): Part => ({
	where: '.missed',
	says: [
		says`Test copper, ${shortDay(11)}: not logged, and 1 more of these. The forecast stands unproved, and a hold earns no day while its last test is older than 48 hours. (judgment, no source)`,
		says`Proposed: test now. Release ${datedFar(standsAfterAway(from))}, as planned. ${hope().text} (common practice, no source)`,
		says`: take this way for Test Cu, NH3`,
		says`Leave it out: release ${datedFar(standsAfterAway(from))}, as planned.`,
		says`Skip the 1 other`
	]
});
