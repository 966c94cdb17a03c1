import type { Mark, Sharing } from './row.ts';
import { unsourced } from './sourced.ts';
import type { Active } from './vocabulary.ts';

export interface SharingRow {
	verdict: Sharing;
	mark: Mark;
	source: string;
	because: string;
}

type Known = SharingRow & { pair: readonly [Active, Active] };

const row = (
	pair: readonly [Active, Active],
	verdict: Sharing,
	mark: 'CP' | 'J' | 'M',
	because: string
): Known => ({
	pair,
	verdict,
	mark,
	source: unsourced[mark],
	because
});

/** Pairs somebody has an opinion on. They stand before the rule on medicines that are run alone. */
const pairs: readonly Known[] = [
	row(['copper-ionic', 'praziquantel'], 'may', 'CP', 'the two courses are commonly run in the same water'),
	row(
		['botanical-antibacterial', 'botanical-antifungal'],
		'may',
		'CP',
		'the two botanicals are made to go together'
	),
	row(
		['copper-ionic', 'copper-chelated'],
		'never',
		'J',
		'two copper scales in one water: no kit can say how much acts'
	),
	row(['copper-ionic', 'chloroquine'], 'never', 'M', 'both are hard on gills near their ceilings'),
	row(['copper-chelated', 'chloroquine'], 'never', 'M', 'both are hard on gills near their ceilings'),
	row(['copper-ionic', 'hydrogen-peroxide'], 'never', 'M', 'copper makes peroxide far more aggressive'),
	row(
		['copper-chelated', 'hydrogen-peroxide'],
		'never',
		'M',
		'peroxide breaks the chelate and frees the copper at once'
	),
	row(['formalin', 'hydrogen-peroxide'], 'never', 'M', 'they react with each other'),
	row(['methylene-blue', 'hydrogen-peroxide'], 'never', 'J', 'peroxide destroys the dye'),
	row(['acriflavine', 'hydrogen-peroxide'], 'never', 'J', 'peroxide destroys the dye')
];

/** Run alone, whatever else is in the water (common practice, no source). */
const alone: Partial<Record<Active, string>> = {
	formalin: 'formalin is run alone',
	'formalin-malachite': 'formalin with malachite green is run alone',
	'botanical-antibacterial': 'botanical remedies share water with each other only',
	'botanical-antifungal': 'botanical remedies share water with each other only'
};

/**
 * Whether two medicines may be in the same water. Symmetric. `unknown` means nobody is known to have said:
 * keep them apart. A medicine may share with itself, except `other`, which may be two different things.
 */
export function sharing(a: Active, b: Active): SharingRow {
	if (a === b && a !== 'other') return judgedRow('may', 'it is the same medicine');
	const known = pairs.find(({ pair }) => pair.includes(a) && pair.includes(b));
	if (known)
		return { verdict: known.verdict, mark: known.mark, source: known.source, because: known.because };
	if (a === 'other' || b === 'other')
		return judgedRow('unknown', 'nothing is known of the other medicine: keep them apart');
	if (a === 'fresh-water' || b === 'fresh-water')
		return judgedRow('may', 'a dip has a vessel of its own, no water is shared');
	const reasons = [a, b].sort().map((active) => alone[active]);
	const because = reasons.find((reason) => reason !== undefined);
	if (because !== undefined) return { verdict: 'never', mark: 'CP', source: unsourced.CP, because };
	return judgedRow('unknown', 'no word on this pair: keep them apart');
}

const judgedRow = (verdict: Sharing, because: string): SharingRow => ({
	verdict,
	mark: 'J',
	source: unsourced.J,
	because
});
