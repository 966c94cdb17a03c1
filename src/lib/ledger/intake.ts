import {
	courses,
	suspects,
	answersTo,
	parasites,
	type Answer,
	type CourseRow,
	type Group,
	type Sourced,
	type Suspect
} from '../formulary/index.ts';
import type { Bag } from '../run/index.ts';
import { print, type Read } from '../units/index.ts';
import { nh3N, tanFromKit } from '../water/index.ts';

/** Toxic ammonia of a shipping bag, mg/L NH3-N. */
export interface BagAmmonia {
	/** at the bag's own pH */
	inBag: number;
	/** what the same ammonia becomes when the water comes to the tank's pH; null while that is unknown */
	atTankPh: number | null;
}

/**
 * NH3-N in the bag, and what it would be at the tank's pH: the water gives off its carbon dioxide once the bag is
 * open, or is mixed drop by drop with the tank's. Null while ammonia, pH, temperature or salinity is not read.
 */
export function bagAmmonia(bag: Bag, tankPh: number | null): Read<BagAmmonia> | null {
	const { ammoniaMgPerL, pH, temperatureC, salinityPpt } = bag;
	if (ammoniaMgPerL === undefined || pH === undefined) return null;
	if (temperatureC === undefined || salinityPpt === undefined) return null;
	const water = { temperatureC, salinityPpt, pH };
	const tan = tanFromKit(ammoniaMgPerL, bag.as ?? 'tan', water);
	if (!tan.ok) return tan;
	const inBag = nh3N(tan.value, water);
	if (!inBag.ok) return inBag;
	if (tankPh === null) return { ok: true, value: { inBag: inBag.value, atTankPh: null } };
	const after = nh3N(tan.value, { ...water, pH: tankPh });
	return after.ok ? { ok: true, value: { inBag: inBag.value, atTankPh: after.value } } : after;
}

/** Fastest raise of salinity that fish bear, ppt a day (common practice, no source). */
export const raisePptPerDay = 2;

export interface SalinityPath {
	/** ppt the tank is brought to before the bag is opened */
	startPpt: number;
	/** days of raising from there to where the tank stood */
	days: number;
	/** the tank has to be thinned first, or raised */
	first: 'lower' | 'raise' | 'nothing';
}

/** The tank is brought to the bag, and only then, slowly, back: salinity at the end of each day. */
export function salinityPath(bagPpt: number, tankPpt: number): SalinityPath {
	const apart = tankPpt - bagPpt;
	const first = Math.abs(apart) <= 1 ? 'nothing' : apart > 0 ? 'lower' : 'raise';
	return {
		startPpt: first === 'nothing' ? tankPpt : bagPpt,
		days: first === 'lower' ? Math.ceil(apart / raisePptPerDay - 1e-9) : 0,
		first
	};
}

export type Reached = Pick<Answer, 'by' | 'name'>;

/** What the signs point to, and what reaches it. */
export interface Track {
	suspect: Suspect;
	name: string;
	/** what to do first */
	first: Sourced<string>;
	/** what is on record as reaching it, by its place on the shelf */
	reachedBy: Reached[];
	/** what looks like a treatment and does not reach it */
	missedBy: Reached[];
	courses: CourseRow[];
}

/** Suspects heard less loudly than this fit too many things. */
const HEARD = 2;

/** Signs at the door suggest suspects, suspects suggest courses, the loudest first. Guesses: a microscope knows. */
export function sickTracks(seen: readonly string[], group: Group | null): Track[] {
	return suspects(seen, group)
		.filter(({ weight }) => weight >= HEARD)
		.map((suspect) => {
			const { treats, doesNotTreat } = answersTo(suspect.target);
			return {
				suspect,
				name: parasites[suspect.target].name,
				first: parasites[suspect.target].first,
				reachedBy: treats.map(({ by, name }) => ({ by, name })),
				missedBy: doesNotTreat.map(({ by, name }) => ({ by, name })),
				courses: courses.filter((course) => reaches(course, suspect.target))
			};
		});
}

/** A course that gives or does what reaches the target. */
function reaches({ medicines, phases }: CourseRow, target: Suspect['target']): boolean {
	const given = new Set([...medicines, ...phases.map(({ kind }) => String(kind))]);
	return answersTo(target).treats.some(({ by }) => given.has(by));
}

/** A bag in one line. */
export function bagLine(bag: Bag): string {
	const parts = [
		bag.temperatureC === undefined ? '' : print(bag.temperatureC, 'C'),
		bag.salinityPpt === undefined ? '' : print(bag.salinityPpt, 'ppt'),
		bag.pH === undefined ? '' : `pH ${print(bag.pH, '')}`,
		bag.ammoniaMgPerL === undefined
			? ''
			: `ammonia ${print(bag.ammoniaMgPerL, 'mg/L')}${bag.as === 'nh3-total' ? ' as NH₃' : ' as TAN'}`,
		bag.count === undefined ? '' : `${bag.count} fish`,
		bag.massG === undefined ? '' : print(bag.massG, 'g')
	].filter(Boolean);
	return `arrived in a bag of ${parts.join(', ') || 'unread water'}`;
}
