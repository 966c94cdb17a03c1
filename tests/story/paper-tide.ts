import { dated } from './dates.ts';
import type { Band, CourseDay, Levels } from './paper-course.ts';
import { line, type Hole, type Said } from './says.ts';

/** Two digits that count, between two levels. */
const rough = ([least, most]: Band): Hole => {
	const half = (value: number) => 0.5 * 10 ** (Math.floor(Math.log10(value || 1)) - 1) + 1e-9;
	return {
		text:
			least === most
				? String(Number(least.toPrecision(2)))
				: `[${least.toPrecision(2)} to ${most.toPrecision(2)}]`,
		pattern: '[\\d.]+',
		fits: (seen) => Number(seen) >= least - half(least) && Number(seen) <= most + half(most)
	};
};

/** The strip under a week: the least and the most of each level, drawn from the last service before it to the first after it. */
export function tideLine(days: readonly CourseDay[], monday: number): Said {
	const own = days.filter(({ day }) => day >= monday && day < monday + 7).flatMap(({ levels }) => levels);
	const before = days.findLast(({ day }) => day < monday)?.levels.at(-1);
	const after = days.find(({ day }) => day >= monday + 7)?.levels[0];
	const seen = [...(before ? [before] : []), ...own, ...(after ? [after] : [])];
	const lowest = (of: (one: Levels) => Band): Hole =>
		rough([Math.min(...seen.map((one) => of(one)[0])), Math.min(...seen.map((one) => of(one)[1]))]);
	const highest = (of: (one: Levels) => Band): Hole =>
		rough([Math.max(...seen.map((one) => of(one)[0])), Math.max(...seen.map((one) => of(one)[1]))]);
	const told = (name: string, of: (one: Levels) => Band) => [
		name,
		' ',
		lowest(of),
		' to ',
		highest(of),
		' mg/L'
	];
	/** what is not there is not told */
	const thing = (name: string, of: (one: Levels) => Band) =>
		seen.some((one) => of(one)[1] > 0) ? ['; ', ...told(name, of)] : [];
	return line(
		`Forecast from ${dated(monday)} to ${dated(monday + 6)}: `,
		...told('Toxic ammonia (NH₃-N)', ({ toxic }) => toxic),
		', limit 0.02',
		...thing('Ionic copper', ({ copper }) => copper),
		...thing('Praziquantel', ({ praziquantel }) => [praziquantel, praziquantel]),
		'.'
	);
}
