import { datedFar, shortDay } from './dates.ts';
import { oneOf, says } from './says.ts';
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

/**
 * With the fish of the tenth day everything counts from the eleventh on, if the tests on both sides of the two days vouch
 * for them; at the worst nothing does before the test of the day after this one, and all counts from there. Which of
 * these it is while today's test has no answer paper does not know; the page of the run is held to the first that evening.
 */
const [soonest, latest] = [10, 13].map((from) => from + 28 + 4 + 1 + 14) as [number, number];
const days = Array.from({ length: latest - soonest + 1 }, (_, n) => n);
const laterRelease = oneOf(days.map((n) => datedFar(soonest + n)));
const moved = oneOf(
	days.map((n) => (n === 0 ? 'as planned' : `${n} day${n > 1 ? 's' : ''} later than planned`))
);

/** Two days of tests that nobody made: a test is at most 48 hours old (common practice, no source). */
export const missedTests: Part = {
	where: '.missed',
	says: [
		says`Test copper, ${shortDay(11)}: not logged, and 1 more of these. The forecast stands unproved, and a hold earns no day while its last test is older than 48 hours. (judgment, no source)`,
		says`Proposed: test now. Release ${laterRelease}, ${moved}. A level counts while a test vouches for it, two days at most: the days after a late test count, those before it do not. (common practice, no source)`,
		says`: take this way for Test Cu, NH3`,
		says`Leave it out: release ${laterRelease}, ${moved}.`,
		says`Skip the 1 other`
	]
};
