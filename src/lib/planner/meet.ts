import type { Fact } from '../run/index.ts';
import { bottleRead, boundsOf, type Lessons } from './fit/lessons.ts';
import { massOf, withMedicine } from './tank-water.ts';
import type { Walk } from './walk.ts';

/** At the moment of a reading: note the water it meets where that is looked for, or put back what it was shown to meet. */
export function meet(walk: Walk, entry: Extract<Fact, { kind: 'reading' }>, lessons: Lessons): void {
	const bottle = bottleRead(walk.bottles, entry.what);
	if (!bottle) return;
	// a wash-out is meant to be low: only a hold that is under way is judged so
	if (lessons.seeks === entry.id && entry.value < boundsOf(walk, bottle).floor) walk.met = walk.forecast;
	const was = lessons.met?.get(entry.id);
	if (!was) return;
	const mass = (side: 'central' | 'low' | 'high') => massOf(was[side], bottle.index);
	const { forecast } = walk;
	walk.forecast = {
		...forecast,
		central: withMedicine(forecast.central, bottle.index, mass('central')),
		low: withMedicine(forecast.low, bottle.index, mass('low')),
		high: withMedicine(forecast.high, bottle.index, mass('high'))
	};
}
