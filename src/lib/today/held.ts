import { amountText, figure, needsStepMore, outageSays, underText, type Amount } from '../planner/index.ts';
import { floorToStep } from '../water/index.ts';
import type { Ask, AskedDose, Keep, Verdict } from './ask.ts';

/** What the keeper typed, and what else is known by then though no plan has heard of it. */
export interface Typed {
	value: number;
	/** what the kit counts; absent: the usual thing */
	as?: string;
	/** an earlier reading of this service that was low too */
	earlier?: boolean;
	/** an earlier reading of this service was over the ceiling too */
	over?: boolean;
	/** jobs of this service that are done: a change has thinned the water, a top-off has filled it */
	done?: readonly string[];
	/** a dose of this medicine was given since that no plan has heard of */
	dosed?: boolean;
	/** when a second reading is due, in words */
	again?: string;
	/** when it was read; absent: it does not matter */
	atMs?: number;
}

/** Slack for comparing levels that were typed with two or three digits. */
export const NEAR = 1e-9;

/** What stands in the tank when the dose's turn comes, mg or uL: topped off, and thinned by the change before it. */
interface Standing {
	brimL: number;
	readMg: number;
	forecastMg: number;
	after: string;
}

function standing(ask: Ask, { value, done = [] }: Typed): Standing | null {
	if (ask.volumeL === null || ask.brimL === null) return null;
	const toppedOff = ask.topoff !== null && done.includes(ask.topoff);
	const shrunkenL = toppedOff ? ask.brimL : ask.volumeL;
	const changed = ask.thins !== null && done.includes(ask.thins.task);
	const share = 1 - (ask.thins?.fraction ?? 0);
	const forecast = Math.max(0, ask.forecast ?? value, ask.otherwise ?? 0);
	const steps = [shrunkenL < ask.brimL - 0.05 ? 'top-off' : '', ask.thins && !changed ? 'change' : ''].filter(
		Boolean
	);
	return {
		brimL: ask.brimL,
		// read before the change, the change takes its share of it; read after, it has done so already
		readMg: value * shrunkenL * (changed ? 1 : share),
		forecastMg: forecast * ask.volumeL * share,
		after: steps.length > 0 ? ` after the ${steps.join(' and the ')}` : ''
	};
}

/** Judges a reading of a medicine whose level is held: what is given now, and what its course hangs on. */
export function judgeHeld(ask: Ask, keep: Keep, typed: Typed, shown: string): Verdict {
	const low = typed.value < keep.floor - NEAR;
	const where = low
		? `${shown}, below ${figure(keep.floor, 3)}`
		: `${shown}, inside ${figure(keep.floor, 3)} to ${figure(keep.ceiling, 3)}`;
	const hangs = low ? hangsOn(ask, keep, typed) : '';
	const water = standing(ask, typed);
	if (!ask.dose || !water)
		return {
			tone: low ? 'caution' : 'good',
			text: `${where}. No amount: the tank volume or the strength of the bottle is missing.${hangs}`
		};
	const { medicine } = ask.dose;
	if (low && typed.dosed)
		return {
			tone: 'caution',
			text: `${where}, after a dose that the plan has not heard of yet: nothing more until it has, then read again.${hangs}`,
			dose: { medicine, now: null, rest: null }
		};
	const toFloor = keep.floor * water.brimL - water.readMg;
	const wanted = keep.target * water.brimL - water.readMg;
	const free = keep.ceiling * water.brimL - water.readMg;
	const full = measured(ask.dose, wanted, water.brimL, toFloor, free);
	const expected = Math.max(ask.forecast ?? typed.value, ask.otherwise ?? 0) < keep.floor - NEAR;
	const again = ask.lowBefore || typed.earlier === true;
	if (low && !expected && !typed.earlier)
		return judgeUnconfirmed({ ask, dose: ask.dose, keep, typed, water, full }, where, hangs);
	const more = typed.value > 2 * (ask.forecast ?? 0) + NEAR;
	const forecast = more ? `, more than the forecast of ${figure(ask.forecast ?? 0, 3)}` : ', as forecast';
	const said = !low ? '' : again ? ', confirmed' : forecast;
	return {
		tone: low && again ? 'caution' : 'good',
		text: `${where}${said}: ${full.value > 0 ? `${amountText(full)}${water.after} to ${figure(keep.target, 3)}` : 'no dose needed'}.${hangs}`,
		dose: { medicine, now: full, rest: null }
	};
}

interface LowReading {
	ask: Ask;
	dose: AskedDose;
	keep: Keep;
	typed: Typed;
	water: Standing;
	/** what it would take if it were confirmed */
	full: Amount;
}

function judgeUnconfirmed(
	{ ask, dose, keep, typed, water, full }: LowReading,
	where: string,
	hangs: string
): Verdict {
	const room = keep.ceiling * water.brimL - Math.max(water.forecastMg, water.readMg);
	const wanted = keep.target * water.brimL - water.readMg;
	const toFloor = keep.floor * water.brimL - water.readMg;
	const now = measured(dose, Math.min(room, wanted), water.brimL, toFloor, room);
	const rest = { ...full, value: floorToStep(Math.max(0, full.value - now.value), dose.step) };
	const comesTo = (water.readMg + now.value * dose.activePerUnit) / water.brimL;
	const short = comesTo < keep.floor - NEAR;
	const first =
		now.value > 0 ? `${amountText(now)} now${water.after}` : `nothing now, the forecast leaves no room`;
	const still =
		now.value > 0 && short
			? `, by this reading to ${underText(comesTo, keep.floor)} and still under ${figure(keep.floor, 3)}: no more until a second reading confirms it`
			: '';
	const then =
		rest.value > 0 ? ` and, if it confirms, ${amountText(rest)} more to ${figure(keep.target, 3)}` : '';
	const again = (short && inTime(keep, typed)) || typed.again || 'tonight';
	return {
		tone: 'caution',
		text: `${where} and below the forecast of ${figure(Math.max(ask.forecast ?? 0, ask.otherwise ?? 0), 3)}: ${first}${still}; test again ${again}${then}.${hangs}`,
		dose: { medicine: dose.medicine, now, rest }
	};
}

const MS_PER_MINUTE = 60_000;
const isPast = (by: string, { atMs = -Infinity }: Typed): boolean =>
	Math.floor(atMs / MS_PER_MINUTE) > Math.floor(Date.parse(by) / MS_PER_MINUTE);

/** A second look that comes too late to save the course is not asked for tonight. */
const inTime = ({ pause }: Keep, typed: Typed): string | null =>
	pause && typed.value >= pause.least - NEAR && !isPast(pause.by, typed) ? `by ${pause.byWords}` : null;

/** What a low level costs the course, and until when it is kept. */
function hangsOn({ unit }: Ask, { pause }: Keep, typed: Typed): string {
	if (!pause) return '';
	if (typed.value < pause.least - NEAR) return ` ${outageSays.deep(`${figure(pause.least, 3)} ${unit}`)}`;
	return ` ${isPast(pause.by, typed) ? outageSays.late(pause.sinceWords) : outageSays.pause(pause.byWords)}`;
}

/**
 * What is measured out of the bottle: never negative, never past the most one service may raise, rounded down unless only
 * a step more reaches the floor and fits. All in active substance.
 */
function measured(dose: AskedDose, active: number, brimL: number, toFloor: number, free: number): Amount {
	const most = dose.raiseMost === null ? Infinity : dose.raiseMost * brimL;
	const wanted = Math.max(0, Math.min(active, most));
	const value = floorToStep(wanted / dose.activePerUnit, dose.step);
	const step = dose.step === null ? null : dose.step * dose.activePerUnit;
	const room = Math.min(free, most);
	const more = needsStepMore(value * dose.activePerUnit, { step, toFloor, wanted, room });
	return { value: more ? value + (dose.step ?? 0) : value, unit: dose.unit };
}
