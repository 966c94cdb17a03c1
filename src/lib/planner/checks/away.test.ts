import { expect, it } from 'vitest';
import { changed, ofRule, planOf } from './cases/case.ts';

/** Why a test on a day away matters, for a copper hold that is tested daily. */
const why = (...away: string[]) =>
	ofRule(planOf(changed({ away })), 'away-on-task').map(({ because }) => because);

// how long a test vouches: common practice, no source
it('names the tests beside the days away, which vouch for 48 h', () => {
	expect(why('2026-12-11')).toEqual([
		'A test vouches for 48 h: those of 2026-12-10 and 2026-12-12 cover it, if both are made.'
	]);
	const both = 'A test vouches for 48 h: those of 2026-12-10 and 2026-12-13 cover it, if both are made.';
	expect(why('2026-12-11', '2026-12-12')).toEqual([both, both]);
});

it('says where the days away are too many for that', () => {
	expect(why('2026-12-11', '2026-12-12', '2026-12-13')[1]).toBe(
		'A test vouches for 48 h: between those of 2026-12-10 and 2026-12-14 there are days that nothing vouches for. Find a hand that tests.'
	);
});
