import { dayNumber, dayText, type Run } from '../run/index.ts';
import { instantText, servicesOf } from './clock.ts';
import type { Plan, Supplies, Task, TaskKind } from './plan.ts';
import { amountText } from './words.ts';

const renewing: readonly TaskKind[] = ['change', 'washout', 'transfer'];

/** What the whole run uses up: new water for changes and moves, and each medicine out of its bottle. */
export function suppliesOf(run: Run, plan: Pick<Plan, 'tasks'>): Supplies {
	// what was given up is not used
	const used = plan.tasks.filter(({ state }) => state !== 'missed');
	const water = used.filter(({ kind }) => renewing.includes(kind));
	return {
		waterL: water.reduce((litres, { amount }) => litres + (amount?.value ?? 0), 0),
		medicines: run.medicines.flatMap(({ id }) => {
			const given = used.filter(({ medicine, amount }) => medicine === id && amount && amount.unit !== 'L');
			const unit = given[0]?.amount?.unit;
			return unit
				? [{ id, value: given.reduce((sum, { amount }) => sum + (amount?.value ?? 0), 0), unit }]
				: [];
		})
	};
}

/** Salt water made for a change is mixed, heated and aired a day ahead: a task of its own where the source is mixed. */
export function mixingTasks(run: Run, tasks: readonly Task[], begins: string): Task[] {
	if (!run.source.mixed) return [];
	return tasks.flatMap((task): Task[] => {
		const date = dayText(dayNumber(task.date) - 1);
		const [service] = servicesOf(run.timeZone, dayNumber(date), run.services);
		if (!renewing.includes(task.kind) || task.urgent || !task.amount || date < begins || !service) return [];
		return [
			{
				id: `${task.phase}/supply/${task.id.split('/').at(-1)}`,
				phase: task.phase,
				kind: 'supply',
				date,
				time: service.time,
				at: instantText(service.atMs),
				text: `Mix ${amountText(task.amount)} of salt water for tomorrow`,
				amount: task.amount,
				state: 'planned',
				because: `New salt water is mixed, heated and aired a day ahead; tomorrow asks ${amountText(task.amount)}. Tap water first loses its chlorine and chloramine.`,
				cautions: ['Heater and pump out of the water before hands go in.']
			}
		];
	});
}
