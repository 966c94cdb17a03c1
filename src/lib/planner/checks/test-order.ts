import { unsourced } from '../../formulary/index.ts';
import { ahead, bottleOf, called, firstPer, type Check, type Seen } from './check.ts';

/** Tests, put at an hour by hand, that come after a dose of that day which they should have judged. */
const late = (seen: Seen) =>
	ahead(seen)
		.filter(({ kind }) => kind === 'dose')
		.flatMap((dose) => {
			const bottle = bottleOf(seen, dose.medicine);
			const test = seen.plan.tasks.find(
				({ kind, date, at, what }) =>
					kind === 'test' && date === dose.date && at > dose.at && what?.includes(bottle?.measuredAs ?? '')
			);
			return bottle && test ? [{ dose, test, bottle }] : [];
		});

/** A reading comes before the dose that it judges. */
export const testAfterDose: Check = {
	rule: 'test-after-dose',
	severity: 'caution',
	appliesTo: 'task',
	about: 'a dose given on a day before that day’s test of its medicine',
	source: unsourced.CP,
	find: (seen) =>
		firstPer(late(seen), ({ test }) => test.id).map(({ dose, test, bottle }) => ({
			date: dose.date,
			phase: dose.phase,
			task: dose.id,
			message: `On ${dose.date} ${called(bottle)} is dosed at ${dose.time} and tested at ${test.time}: the test comes first.`,
			because: 'A dose on a level nobody looked at may pass the ceiling; the reading of that day decides it.'
		})),
	repairs: (draft, seen) => {
		const ids = late(seen)
			.filter(({ dose }) => dose.date === draft.date)
			.flatMap(({ dose, test }) => [dose.id, test.id])
			.filter((id) => seen.run.moves[id] !== undefined);
		return ids.length === 0
			? []
			: [
					{
						title: 'Put them back at the hour of the service',
						cells: Object.fromEntries([...new Set(ids)].map((id) => [`moves|${id}`, null]))
					}
				];
	}
};
