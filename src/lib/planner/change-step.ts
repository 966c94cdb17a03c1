import { no3PerN } from '../water/index.ts';
import type { Chance } from './chance.ts';

/** Whole percent a change may take outside wash-outs and emergencies (common practice, no source). */
export const LEAST = 20;
export const MOST = 50;
export const ROUNDING = 1e-9;

/** A chance with its limits turned into masses, so that the search only compares. */
export interface Step extends Chance {
	tanLimitMg: number;
	nitrateLimitMg: number;
	/** a change may be made here */
	may: boolean;
	/** a change must be made here, of at least this many percent; 0: none must */
	must: number;
	/** a change is still in time for the seven days */
	dueWall: number;
}

export interface Masses {
	tanMg: number;
	nitrateMg: number;
}

/** Through the jobs of a service, with an automatic change of `percent`. */
export function through(step: Step, { tanMg, nitrateMg }: Masses, percent: number): Masses {
	const kept = 1 - percent / 100;
	const litres = (percent / 100) * step.volumeL;
	return {
		tanMg: (tanMg * step.keepTan + step.addTanMg) * kept + litres * step.source.tanMg,
		nitrateMg: (nitrateMg * step.keepNitrate + step.addNitrateMg) * kept + litres * step.source.nitrateMg
	};
}

/** On to the next service. */
export function onward(next: Step, { tanMg, nitrateMg }: Masses): Masses {
	const tanThen = next.alpha * tanMg + next.betaMg;
	return { tanMg: tanThen, nitrateMg: nitrateMg + no3PerN * Math.max(0, tanMg + next.producedMg - tanThen) };
}

/** Masses before each service when every permitted chance takes `percent`. */
export function trajectory(steps: readonly Step[], percentAt: (step: Step) => number): Masses[] {
	const first = steps[0];
	if (!first) return [];
	const before: Masses[] = [{ tanMg: first.tanMg, nitrateMg: first.nitrateMg }];
	for (let i = 1; i < steps.length; i++) {
		const last = steps[i - 1] as Step;
		const left = through(last, before[i - 1] as Masses, last.may ? percentAt(last) : 0);
		before.push(onward(steps[i] as Step, left));
	}
	return before;
}
