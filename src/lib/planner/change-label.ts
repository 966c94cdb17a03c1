import type { Chance } from './chance.ts';
import { onward, ROUNDING, through, type Masses, type Step } from './change-step.ts';

/** A partial schedule: the water after its last change. */
export interface Label {
	at: number;
	tanMg: number;
	nitrateMg: number;
	lastWall: number;
	percent: number;
	sum: number;
	parent: Label | null;
}

export function startLabel(steps: readonly Step[], chances: readonly Chance[]): Label {
	const first = steps[0];
	return {
		at: -1,
		tanMg: first?.tanMg ?? 0,
		nitrateMg: first?.nitrateMg ?? 0,
		lastWall: first?.changedWall ?? chances[0]?.wall ?? 0,
		percent: 0,
		sum: 0,
		parent: null
	};
}

export const count = (label: Label): number => (label.parent ? 1 + count(label.parent) : 0);

export const chain = (label: Label): Label[] => (label.parent ? [...chain(label.parent), label] : []);

export interface Ahead {
	/** first service that finds a limit or the seven days passed; the number of steps when none does */
	breach: number;
	/** masses before each step after the label, the first of them right behind it */
	before: Masses[];
}

/** Walk on from a label without another change, up to the first breach or a change that must be made. */
export function lookAhead(steps: readonly Step[], label: Label): Ahead {
	let masses: Masses = { tanMg: label.tanMg, nitrateMg: label.nitrateMg };
	let lastWall = label.lastWall;
	const before: Masses[] = [];
	for (let i = label.at + 1; i < steps.length; i++) {
		const step = steps[i] as Step;
		if (i > 0) masses = onward(step, masses);
		before.push(masses);
		const late = step.wall - lastWall > step.dueWall + ROUNDING;
		if (i > 0 && (masses.tanMg > step.tanLimitMg || masses.nitrateMg > step.nitrateLimitMg || late))
			return { breach: i, before };
		if (step.must > 0 && step.may) return { breach: i + 1, before };
		masses = through(step, masses, 0);
		if (step.fixed > 0) lastWall = step.wall;
	}
	return { breach: steps.length, before };
}

export const mustAhead = (steps: readonly Step[], { breach }: Ahead): boolean => {
	const step = steps[breach - 1];
	return step !== undefined && step.must > 0 && step.may;
};

export const done = (steps: readonly Step[], label: Label, ahead: Ahead): boolean =>
	ahead.breach >= steps.length && !(mustAhead(steps, ahead) && label.at < steps.length - 1);

/** Permitted chances after the label and before its breach, latest first. */
export function candidates(steps: readonly Step[], label: Label, breach: number): number[] {
	const found: number[] = [];
	for (let i = breach - 1; i > label.at; i--) if (steps[i]?.may) found.push(i);
	return found;
}

export function change(
	steps: readonly Step[],
	label: Label,
	ahead: Ahead,
	at: number,
	wished: number
): Label {
	const step = steps[at] as Step;
	const percent = Math.max(wished, step.must);
	const left = through(step, ahead.before[at - label.at - 1] as Masses, percent);
	return { at, ...left, lastWall: step.wall, percent, sum: label.sum + percent, parent: label };
}
