import { datedFar } from './dates.ts';
import { hope, standsAfterAway } from './paper-missed.ts';
import { says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** The last of 28 days. */
const lastOfCopper = (from: number) => from + 27;

/** What either way says of the run: a test made or left out moves nothing until it is read. */
const unmoved = (from: number): Said[] => [
	says`${datedFar(standsAfterAway(from))}, as planned`,
	says`Ionic copper, hold: 0 d earned, ends ${datedFar(lastOfCopper(from))}`,
	says`1 job moves or changes`
];

/** The page of open jobs on the morning after two days away: each test that nobody made, and its ways. `from`: see `missedTests`. */
export function awaySlipParts(asked: readonly number[], from: number): Part[] {
	const ago = (day: number) => (day === 11 ? '24 h' : `${12 - day} days`);
	return [
		...asked.flatMap((day): Part[] => {
			const card = `section[id="copper/test/${day - 2}"] li.way`;
			return [
				{
					where: `${card}:nth-child(1)`,
					says: [
						...unmoved(from),
						hope(),
						says`${datedFar(12)} 08:01, Test Cu, NH3: from ${datedFar(day)} 08:00 to ${datedFar(12)} 08:01`
					]
				},
				{
					where: `${card}:nth-child(2)`,
					says: [...unmoved(from), says`${datedFar(day)} 08:00, Test Cu, NH3: missed, was open`]
				}
			];
		}),
		{
			where: 'html',
			says: [
				says`Open jobs of Banded cardinalfish, Bay 4 · Lazaret`,
				says`Banded cardinalfish, Bay 4`,
				says`Test Cu, NH3`,
				hope(),
				...asked.map(
					(day) => says`Due ${datedFar(day)} at 08:00, ${ago(day)} ago: nobody has said what became of it.`
				)
			]
		}
	];
}
