import { unsourced } from '../../formulary/index.ts';
import { presentLots } from '../../run/index.ts';
import { lotOf } from '../carcass.ts';
import { dayAt, logOf, MS_PER_HOUR, type Check, type Draft, type Seen } from './check.ts';

/** A death speaks as long as the fish are watched before release (judgment, no source). */
const SPEAKS_HOURS = 14 * 24;

/** A death is a question: what of, and whether the course still fits those that remain. */
export const fishDied: Check = {
	rule: 'fish-died',
	severity: 'caution',
	appliesTo: 'log',
	about: `fish that died within ${SPEAKS_HOURS / 24} days`,
	source: unsourced.CP,
	find: (seen) => {
		const losses = logOf(seen).flatMap((entry) => (entry.kind === 'loss' ? [entry] : []));
		const last = losses.at(-1);
		if (!last || seen.nowMs - last.atMs > SPEAKS_HOURS * MS_PER_HOUR) return [];
		const date = dayAt(seen, last.atMs);
		const dead = losses.filter(({ atMs }) => dayAt(seen, atMs) === date);
		const left = presentLots(seen.run).reduce((sum, { count }) => sum + count, 0);
		return [{ date, phase: null, ...asked(namesOf(seen, dead), date, left) }];
	}
};

/** `1 tang, 2 clownfish` */
const namesOf = ({ run }: Seen, dead: readonly { lot: string; count: number }[]): string =>
	[...Map.groupBy(dead, ({ lot }) => lot)]
		.map(([lot, own]) => {
			const count = own.reduce((sum, one) => sum + one.count, 0);
			return `${count} ${lotOf(run, lot)?.what || 'fish'}`;
		})
		.join(', ');

function asked(names: string, date: string, left: number): Pick<Draft, 'message' | 'because'> {
	const look =
		'Test ammonia now. Have it looked at soon by someone qualified, kept cold and not frozen: that finds what a guess does not.';
	if (left === 0)
		return {
			message: `${names} died on ${date}; no fish is left in this run.`,
			because: `${look} Until it is known what it was, nothing wet goes from this tank to another; then the run can end and the tank be disinfected and dried.`
		};
	return {
		message: `${names} died on ${date}; ${left} remain.`,
		because: `${look} Then ask whether the course still fits those that remain: what they may have, and whether they bear it.`
	};
}
