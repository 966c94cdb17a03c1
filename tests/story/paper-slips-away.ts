import { datedFar } from './dates.ts';
import type { CourseDay } from './paper-course.ts';
import { wordsOf } from './paper-because.ts';
import { between, line, maybe, oneOf, says, type Hole, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/**
 * What the plan comes to while the tests of two days have no answer: everything after copper lies up to three days later
 * than when the tests on both sides vouch for them, and each way says how its jobs move from there.
 */
const later = (day: number): Hole => oneOf([0, 1, 2, 3].map((n) => datedFar(day + n)));

/** A job after copper, if a way moves it. */
const moves = (day: number, text: string): Said =>
	maybe(line(later(day), ` 08:00, ${text}: from `, later(day), ' 08:00 to ', later(day), ' 08:00'));

const ended = oneOf(['', ...[0, 1, 2, 3].map((n) => `, was ${datedFar(37 + n)}`)]);
const anyOf = (pattern: string): Hole => ({ text: pattern, pattern, fits: () => true });

/** The page of open jobs on the morning after two days away: each test that nobody made, and its ways. */
export function awaySlipParts(ahead: readonly CourseDay[], asked: readonly number[]): Part[] {
	const moved = ahead
		.filter(({ day }) => day > 37)
		.flatMap(({ day, jobs }) => jobs.map((job) => moves(day, wordsOf(job).text)));
	const inCopper = [38, 39, 40].flatMap((day) => [
		maybe(says`${datedFar(day)} 08:00, Test Cu, NH3: new`),
		maybe(line(`${datedFar(day)} 08:00, Change 30 L: new`)),
		maybe(line(`${datedFar(day)} 08:00, Ionic copper `, between(0.1, 4, 1), ' mL: new'))
	]);
	const [first = 0, second = 0] = asked;
	const hours = (day: number) => (12 - day) * 24;
	return [
		{
			where: 'li.way',
			says: [
				line(later(57), ', ', anyOf('as planned|[1-3] days? later(?: than planned)?')),
				line('Ionic copper, hold: ', between(0, 2, 0), ' d earned, ends ', later(37), ended),
				maybe(
					line(
						'Ionic copper ',
						between(0.1, 20, 1),
						' mL ',
						anyOf('more|less'),
						', ',
						between(40, 130, 1),
						' mL in all'
					)
				),
				line(between(1, moved.length + 20, 0), anyOf(' jobs? moves? or changes?')),
				...asked.flatMap((day) => [
					says`${datedFar(12)} 08:01, Test Cu, NH3: from ${datedFar(day)} 08:00 to ${datedFar(12)} 08:01`,
					says`${datedFar(day)} 08:00, Test Cu, NH3: missed, was open`
				]),
				...inCopper,
				...moved
			]
		},
		{
			where: 'html',
			says: [
				says`Open jobs of Banded cardinalfish, Bay 4 · Lazaret`,
				says`Banded cardinalfish, Bay 4`,
				says`Test Cu, NH3`,
				says`Due ${datedFar(first)} at 08:00, ${hours(first) / 24} days ago: nobody has said what became of it.`,
				says`Due ${datedFar(second)} at 08:00, ${hours(second)} h ago: nobody has said what became of it.`
			]
		}
	];
}
