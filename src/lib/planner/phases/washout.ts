import type { Phase } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import { dutiesOf, testJob } from '../duties.ts';
import type { Job } from '../job.ts';
import { dayOf, type Bench, type PhaseKindRow } from '../phase-kind.ts';
import { lastDay } from './span.ts';

/** A wash-out that has not cleared after this long will not clear by itself. */
const FRUITLESS_DAYS = 60;

/** The level at or under which a wash-out calls its medicine gone. */
export const clearLevel = (phase: Phase, bottle: Bottle): number => phase.level?.high ?? bottle.clear;

/** Take a medicine out by changes, carbon or resin, until forecast and test say clear. */
export const washout: PhaseKindRow = {
	kind: 'washout',
	begin(phase, bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const untilClear = !phase.lasts || 'untilClear' in phase.lasts;
		const stated = lastDay(phase, from);
		const out = bottle ? [bottle] : [...bench.bottles];
		let clearOn: number | null = null;
		let clearSlot = 0;
		const isGone = (at: Bench) => out.every((b) => at.mostLeft(b) <= clearLevel(phase, b));
		const kitShows = (at: Bench, since = from) =>
			out.some((b) => at.kitStillShows(b.measuredAs, clearLevel(phase, b), since));
		const isRepeated = phase.change !== undefined && phase.change !== null && 'repeat' in phase.change;

		return {
			due(service, at) {
				// the test of this day decides, so what the kit showed before does not keep it away
				if (untilClear && clearOn === null && !service.beside && isGone(at))
					[clearOn, clearSlot] = [service.day, service.slot];
				const jobs = duties(service, at).flatMap((job) => {
					if (job.fraction === undefined) return [job];
					if (untilClear && isRepeated) return [whileLeft(job, () => !isGone(at), clearOn !== null)];
					return clearOn === null ? [job] : [];
				});
				const last =
					(clearOn === service.day && service.slot === clearSlot) ||
					(!untilClear && service.day === stated && service.slot === 0);
				if (last) addTest(jobs, phase, dayOf(service, from), out);
				// clear on its first day: carbon would go in and out at once
				if (service.day === from && service.slot === 0 && !last)
					jobs.push(...absorbers(phase).map((what) => absorber(phase, what, true, dayOf(service, from))));
				// as long as the kit shows some of it on that day, what takes it out stays in
				const goesOn = () => untilClear && (!isGone(at) || kitShows(at, service.day));
				if (last && service.day > from)
					for (const what of absorbers(phase)) {
						const out = absorber(phase, what, false, dayOf(service, from));
						jobs.push({ ...out, act: (...water) => (goesOn() ? null : out.act(...water)) });
					}
				return jobs;
			},
			stuck: (service) => untilClear && clearOn === null && service.day - from > FRUITLESS_DAYS,
			// what the kit shows on that day, after the service, still counts: judged the morning after
			endedBefore(service, at) {
				if (clearOn === null || service.slot > 0) return false;
				if (isGone(at) && !kitShows(at)) return true;
				clearOn = null;
				return false;
			},
			endsWith: (service) => !untilClear && service.day >= stated
		};
	}
};

/**
 * A change that falls away once nothing is left, and that comes back when the kit shows more than was thought. Where
 * none is planned it takes no other row's place.
 */
function whileLeft({ fraction, ...job }: Job, isLeft: () => boolean, clear: boolean): Job {
	const act: Job['act'] = (water, source) => (isLeft() ? job.act(water, source) : null);
	return clear || fraction === undefined ? { ...job, act } : { ...job, fraction, act };
}

/** Clear is a forecast and a test: the last day carries one whatever the sheet says. */
function addTest(jobs: Job[], phase: Phase, n: string, out: Bottle[]): void {
	const wanted = out.map((b) => b.measuredAs);
	const test = jobs.find((job) => job.kind === 'test');
	const missing = wanted.filter((what) => !test?.what?.includes(what));
	if (missing.length === 0) return;
	if (test) jobs.splice(jobs.indexOf(test), 1, testJob(phase, test.n, [...(test.what ?? []), ...missing]));
	else jobs.push(testJob(phase, n, missing));
}

const absorbers = (phase: Phase) => (['carbon', 'resin'] as const).filter((what) => phase[what]);

/** Fresh carbon or resin goes in for the wash-out and comes out at its end. */
export function absorber(phase: Phase, what: 'carbon' | 'resin', on: boolean, n: string): Job {
	return {
		phase: phase.id,
		kind: 'equipment',
		n: what === 'carbon' ? n : `${n}.${what}`,
		equipment: { what, on },
		act: () => ({
			effects: [],
			amount: null,
			words: () => ({
				text: on ? `Put fresh ${what} in` : `Take the ${what} out`,
				because: on
					? `It helps to take the medicine out; how fast is not promised, so the forecast counts only the changes.`
					: `Spent ${what} gives back or goes on taking: the next dose must not meet it.`,
				equipment: { what, on }
			})
		})
	};
}
