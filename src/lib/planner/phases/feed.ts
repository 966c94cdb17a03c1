import type { Phase } from '../../run/index.ts';
import { measureOut, type Bottle } from '../bottle.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import { dayOf, type Bench, type PhaseKindRow } from '../phase-kind.ts';
import { fallsOn } from '../recurrence.ts';
import { amountText, figure } from '../words.ts';
import { lastDay } from './span.ts';

/** Medicated food beside any water treatment; `level` is mg of medicine per gram of food. */
export const feed: PhaseKindRow = {
	kind: 'feed',
	begin(phase, bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const falls = fallsOn(phase.repeat ?? { everyDays: 1 }, from);
		const to = lastDay(phase, from);
		return {
			due: (service, at) => [
				...duties(service, at, true),
				...(service.slot === 0 && falls(service.day)
					? [feedJob(phase, bottle, dayOf(service, from), bench)]
					: [])
			],
			endsWith: (service) => service.day >= to
		};
	}
};

function feedJob(phase: Phase, bottle: Bottle | null, n: string, bench: Bench): Job {
	const foodG = foodPerDayG(bench);
	const perG = phase.level?.high ?? null;
	const poured = bottle && foodG !== null && perG !== null ? measureOut(bottle, foodG * perG) : null;
	// food without its medicine is no medicated food
	const amount = poured && poured.value > 0 ? poured : null;
	const name = bottle?.row.name ?? 'medicine';
	const missing = !bottle
		? 'the medicine is missing'
		: foodG === null
			? 'the mass of food is missing'
			: perG === null
				? 'its strength in the food is missing'
				: poured
					? 'the day’s share is less than one step of the measuring tool'
					: 'the strength of the bottle is missing';
	return {
		phase: phase.id,
		kind: 'feed',
		n,
		act: () => ({
			effects: [],
			amount,
			words: () => ({
				text: amount
					? `Feed ${figure(foodG ?? 0, 1)} g with ${name} ${amountText(amount)}`
					: `Feed with ${name}: no amount, ${missing}`,
				because: amount
					? `${figure(perG ?? 0, 2)} mg per gram of food, ${figure(foodG ?? 0, 1)} g a day; log what is refused.`
					: `No amount can be justified: ${missing}.`,
				...(bottle ? { medicine: bottle.id, cautions: [...bottle.row.cautions] } : {})
			})
		})
	};
}

function foodPerDayG(bench: Bench): number | null {
	const fed = bench.run.lots.map((lot) => lot.feedGPerDay);
	return fed.length === 0 || fed.includes(null) ? null : fed.reduce<number>((sum, g) => sum + (g ?? 0), 0);
}
