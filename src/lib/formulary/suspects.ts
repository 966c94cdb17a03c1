import { medicines } from './medicines.ts';
import { methods, type Method } from './methods.ts';
import type { Mark, Sourced } from './row.ts';
import { unsourced } from './sourced.ts';
import { actives, targets, type Active, type Group, type Target } from './vocabulary.ts';

interface Clue {
	sign: string;
	target: Target;
	/** 3 speaks for it by itself, 2 fits well, 1 fits many things */
	weight: 1 | 2 | 3;
	mark: Mark;
	source: string;
	/** only in this group */
	group?: Group;
}

const clue = (
	sign: string,
	target: Target,
	weight: Clue['weight'],
	mark: 'CP' | 'J' | 'M',
	group?: Group
): Clue => ({
	sign,
	target,
	weight,
	mark,
	source: unsourced[mark],
	...(group ? { group } : {})
});

/** Which sign speaks for what, and how loudly. */
const clues: readonly Clue[] = [
	clue('white-spots', 'cryptocaryon', 3, 'CP'),
	clue('gold-dust', 'amyloodinium', 3, 'CP'),
	clue('fast-breathing', 'amyloodinium', 2, 'M'),
	clue('fast-breathing', 'flukes', 1, 'M'),
	clue('fast-breathing', 'cryptocaryon', 1, 'M'),
	clue('fast-breathing', 'brooklynella', 1, 'M'),
	clue('into-flow', 'amyloodinium', 2, 'CP'),
	clue('haze', 'brooklynella', 2, 'CP'),
	clue('haze', 'brooklynella', 3, 'CP', 'clownfish'),
	clue('haze', 'flukes', 1, 'M'),
	clue('mucus', 'brooklynella', 2, 'M'),
	clue('mucus', 'flukes', 1, 'M'),
	clue('mucus', 'cryptocaryon', 1, 'M'),
	clue('stringy-faeces', 'worms', 3, 'CP'),
	clue('thin', 'worms', 2, 'CP'),
	clue('black-spots', 'flukes', 2, 'M'),
	clue('blisters', 'uronema', 2, 'M'),
	clue('blisters', 'bacteria', 1, 'M'),
	clue('ragged-fins', 'bacteria', 2, 'CP'),
	clue('ragged-fins', 'fungus', 1, 'CP'),
	clue('cloudy-eye', 'bacteria', 2, 'CP'),
	clue('cloudy-eye', 'flukes', 2, 'M'),
	clue('pale-gills', 'flukes', 2, 'M'),
	clue('pale-gills', 'amyloodinium', 1, 'M'),
	clue('flashing', 'flukes', 2, 'M'),
	clue('flashing', 'cryptocaryon', 1, 'M'),
	clue('flashing', 'amyloodinium', 1, 'M'),
	clue('piping', 'amyloodinium', 1, 'M'),
	clue('piping', 'flukes', 1, 'M'),
	clue('sore', 'bacteria', 2, 'CP'),
	clue('sore', 'uronema', 2, 'M'),
	clue('sore', 'fungus', 1, 'CP'),
	clue('swollen', 'bacteria', 2, 'M')
];

export interface Suspect {
	target: Target;
	weight: number;
	because: string;
}

/**
 * What signs speak for, loudest first; equal weights keep the order of the target list. Lethargy, refused
 * food and `none` speak for nothing by themselves. Guesses: a microscope or a veterinarian knows.
 */
export function suspects(signs: readonly string[], group: Group | null = null): Suspect[] {
	const heard = clues.filter(
		(one) => signs.includes(one.sign) && (one.group === undefined || one.group === group)
	);
	const loudest = heard.filter(
		(one) =>
			!heard.some(
				(other) => other.sign === one.sign && other.target === one.target && other.weight > one.weight
			)
	);
	return targets
		.map((target) =>
			suspectFrom(
				target,
				loudest.filter((one) => one.target === target)
			)
		)
		.filter((suspect) => suspect.weight > 0)
		.sort((a, b) => b.weight - a.weight);
}

const suspectFrom = (target: Target, heard: readonly Clue[]): Suspect => ({
	target,
	weight: heard.reduce((sum, one) => sum + one.weight, 0),
	because: heard.map((one) => `${one.sign.replaceAll('-', ' ')} (${one.source})`).join(', ')
});

export interface Answer {
	by: Active | Method;
	name: string;
	how: Sourced<string>;
}

/** What is on record as reaching a target and as not reaching it, medicines first, then methods. */
export function answersTo(target: Target): { treats: Answer[]; doesNotTreat: Answer[] } {
	const rows = [
		...actives.map((by) => ({ by, ...medicines[by] })),
		...Object.values(methods).map((row) => ({ by: row.method, ...row }))
	];
	const pick = (column: 'treats' | 'doesNotTreat'): Answer[] =>
		rows.flatMap((row) => {
			const how = row[column][target];
			return how ? [{ by: row.by, name: row.name, how }] : [];
		});
	return { treats: pick('treats'), doesNotTreat: pick('doesNotTreat') };
}
