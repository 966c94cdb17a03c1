import type { Run } from '../run/index.ts';
import type { Plan, Supplies } from './plan.ts';

/** What the whole run uses up: new water for changes and moves, and each medicine out of its bottle. */
export function suppliesOf(run: Run, plan: Pick<Plan, 'tasks'>): Supplies {
	const water = plan.tasks.filter(({ kind, amount }) => amount?.unit === 'L' && kind !== 'dip');
	return {
		waterL: water.reduce((litres, { amount }) => litres + (amount?.value ?? 0), 0),
		medicines: run.medicines.flatMap(({ id }) => {
			const given = plan.tasks.filter(
				({ medicine, amount }) => medicine === id && amount && amount.unit !== 'L'
			);
			const unit = given[0]?.amount?.unit;
			return unit
				? [{ id, value: given.reduce((sum, { amount }) => sum + (amount?.value ?? 0), 0), unit }]
				: [];
		})
	};
}
