import { datedFar } from './dates.ts';
import { figure, says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** The days of the rows as they stand on the sixth day, the third dose open: copper counts from the hour it reaches 0.15. */
const copperTo = 33;
const [washFrom, washTo] = [34, 38];
const release = 53;
/** Before the dose was forgotten it was a day sooner. */
const aDayLate = says`${datedFar(release)}, 1 day later than planned`;

/** Copper in all, if the dose is given: three steps of 3.6 mL, and 2.7 mL after each change. */
const changeDays = [6, 9, 12, 15, 18, 21, 24, 27, 30, 33];
const planned = 3 * 3.6 + changeDays.length * 2.7;
/** Two steps, 0.09 to 0.18 mg/L in 120 L of 2 mg/mL after the first change, and 2.7 mL after each other one. */
const skipped = 2 * 3.6 + 5.4 + (changeDays.length - 1) * 2.7;

const lessOrMore = (mL: number) => `${Math.abs(mL).toFixed(1)} mL ${mL > 0 ? 'more' : 'less'}`;
const copperLine = (all: number): Said =>
	says`Ionic copper ${lessOrMore(all - planned)}, ${all.toFixed(1)} mL in all`;
const earned = (days: number, ends: number, was = ''): Said =>
	says`Ionic copper, hold: ${days} d earned, ends ${datedFar(ends)}${was}`;

const way = (n: number): string => `li.way:nth-child(${n})`;
const movedDose = says`${datedFar(6)} 07:00, Ionic copper 3.6 mL: from ${datedFar(5)} 08:00 to ${datedFar(6)} 07:00`;
const missedDose = says`${datedFar(5)} 08:00, Ionic copper 3.6 mL: missed, was open`;

/** Given now: the level is reached an hour before the service of the sixth day, and nothing else moves. */
const givenNow: Said[] = [aDayLate, earned(0, copperTo), says`1 job moves or changes`, movedDose];

/** Given up: the dose after the change makes up for it, and lifts no more than 0.10 mg/L. */
const givenUp: Said[] = [
	aDayLate,
	earned(0, copperTo),
	copperLine(skipped),
	says`2 jobs move or change`,
	missedDose,
	says`${datedFar(6)} 08:00, Ionic copper 5.4 mL: 5.4 mL instead of 2.7 mL`
];

/** Every job after copper comes a day later, and copper has a day of tests more. */
function aDayLater(): Said[] {
	const later = (day: number, text: string) =>
		says`${datedFar(day + 1)} 08:00, ${text}: from ${datedFar(day)} 08:00 to ${datedFar(day + 1)} 08:00`;
	const wash = [washFrom, 35, 36, 37].map((day) => later(day, 'Wash out 60 L'));
	const tests = [washFrom, 35, 36, 37, washTo].map((day) => later(day, 'Test Cu'));
	const watch = [39, 41, 43, 45, 47, 49, 51].map((day) =>
		later(day, day === 39 ? 'Test NH3, NO3' : 'Test NH3')
	);
	const rest = [
		later(washFrom, 'Put fresh carbon in'),
		later(washTo, 'Take the carbon out'),
		later(46, 'Test NO3'),
		...[44, 51].map((day) => later(day, 'Change 24 L')),
		later(52, 'Look at every fish and log the signs'),
		later(release, 'Strip, disinfect and dry the tank and its tools'),
		later(release, 'Release the fish')
	];
	return [says`${datedFar(copperTo + 1)} 08:00, Test Cu, NH3: new`, ...wash, ...tests, ...watch, ...rest];
}

/** Begun anew at 0.12 mg/L, and thinned to 0.09: to 0.14, 0.16 and 0.18, so that 0.15 is passed a day later. */
function begunAnew(): Said[] {
	const steps = [0.14 - 0.09, 0.02, 0.02].map((rise) => (rise * 120) / 2);
	const [first = 0, second = 0, third = 0] = steps;
	const lines = [
		missedDose,
		says`${datedFar(6)} 08:00, Ionic copper ${first.toFixed(1)} mL: ${first.toFixed(1)} mL instead of 2.7 mL`,
		says`${datedFar(7)} 08:00, Ionic copper ${second.toFixed(1)} mL: new`,
		says`${datedFar(8)} 08:00, Ionic copper ${third.toFixed(1)} mL: new`,
		...aDayLater()
	];
	return [
		says`Everything earned is given up and counted from the next service: for a break long enough that parasites left the fish and came back (they stay on it up to 7 days).`,
		says`${datedFar(release + 1)}, 2 days later than planned`,
		earned(0, copperTo + 1, `, was ${datedFar(copperTo)}`),
		copperLine(skipped),
		says`${figure(lines.length, 0)} jobs move or change`,
		...lines
	];
}

/** The page of open jobs on the morning after the forgotten dose: its ways laid side by side. */
export const slipParts = (): Part[] => [
	{ where: way(1), says: givenNow },
	{ where: way(2), says: givenUp },
	{ where: way(3), says: begunAnew() },
	{
		where: 'html',
		says: [
			says`Banded cardinalfish, Bay 4`,
			says`Open jobs of Banded cardinalfish, Bay 4 · Lazaret`,
			says`Ionic copper 3.6 mL`,
			says`Due ${datedFar(5)} at 08:00, 23 h ago: nobody has said what became of it.`
		]
	}
];

/** What is said once the dose was chosen to be given now. */
export const movedParts = (): Part[] => [
	{
		where: '.taken',
		says: [says`Give it now. Ionic copper 3.6 mL`, aDayLate, earned(0, copperTo), says`1 in all`, movedDose]
	},
	{
		where: 'html',
		says: [says`Banded cardinalfish, Bay 4`, says`Open jobs of Banded cardinalfish, Bay 4 · Lazaret`]
	}
];
