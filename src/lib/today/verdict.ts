import {
	amountText,
	figure,
	litresAway,
	MOST_AT_ONCE,
	needsStepMore,
	shareAway,
	slippedUnit,
	type Amount
} from '../planner/index.ts';
import { floorToStep, nh3PerN } from '../water/index.ts';
import type { Ask, AskedAmmonia, AskedDose, Keep, Verdict } from './ask.ts';

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
	/** when a second reading is due, in words */
	again?: string;
}

/**
 * Judges a reading at once. Above the ceiling or ten times off: no dose until a retest. Low and unconfirmed: at most
 * (ceiling - the larger of forecast and reading) x volume now, the rest once a second reading agrees. A reading taken
 * before the top-off belongs to the shrunken volume. Rules of long-time keepers; judgment, no source.
 */
export function judge(ask: Ask, typed: Typed): Verdict {
	if (ask.ammonia) return judgeAmmonia(ask, ask.ammonia, typed);
	const shown = `${figure(typed.value, 3)}${ask.unit ? ` ${ask.unit}` : ''}`;
	const refused = notBelieved(ask, typed, shown);
	if (refused) return refused;
	if (ask.keep) return judgeHeld(ask, ask.keep, typed, shown);
	if (ask.clear !== null) return judgeWashout(ask.clear, typed.value, shown);
	return judgeBounds(ask, typed.value, shown);
}

/** Above the ceiling, or ten times off the forecast. */
function notBelieved(ask: Ask, { value, over }: Typed, shown: string): Verdict | null {
	const ceiling = ask.keep?.ceiling ?? ask.ceiling;
	const dose = ask.dose && { medicine: ask.dose.medicine, now: null, rest: null };
	const held = ask.dose ? `No dose of ${lower(ask.dose.name)} until a second reading.` : 'Read again first.';
	const { believed, forecast, unit } = ask;
	if (ceiling !== null && value > ceiling + NEAR) {
		const slip = !over && believed && forecast !== null && value > believed.high;
		const what = slip
			? `and ${slippedUnit(value, forecast, unit)}. Read the unit and the scale again, and test again at once with a fresh sample and clean glass. ${held} If that confirms it: change water, no make-up; how much is told then.`
			: `${held} Read again with a fresh sample and clean glass. ${tooHigh(ask, value)}`;
		return {
			tone: 'stop',
			text: `${shown} is above the ceiling of ${figure(ceiling, 3)}${slip ? ' ' : '. '}${what}`,
			...(dose ? { dose } : {}),
			card: 'overdose'
		};
	}
	if (!believed || forecast === null || (value >= believed.low && value <= believed.high)) return null;
	return {
		tone: 'stop',
		text: `${shown} is ten times off the forecast of ${figure(forecast, 3)}. Look at the unit, the scale and the kit, and read again. ${held}`,
		...(dose ? { dose } : {}),
		card: 'overdose'
	};
}

/** How much water brings a level that is confirmed as too high back to where it should stand; nothing is made up. */
function tooHigh({ keep, volumeL }: Ask, value: number): string {
	if (!keep || volumeL === null) return 'If it is confirmed: change water, no make-up.';
	const fraction = 1 - keep.target / value;
	return `If it is confirmed: change ${amountText({ value: fraction * volumeL, unit: 'L' })} (${figure(fraction * 100, 0)} %) of matched water to come to ${figure(keep.target, 3)}, no make-up.`;
}

/** Slack for comparing levels that were typed with two or three digits. */
const NEAR = 1e-9;

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
	const forecast = Math.max(0, ask.forecast ?? value);
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

function judgeHeld(ask: Ask, keep: Keep, typed: Typed, shown: string): Verdict {
	const low = typed.value < keep.floor - NEAR;
	const expected = (ask.forecast ?? typed.value) < keep.floor - NEAR;
	const again = ask.lowBefore || typed.earlier === true;
	const where = low
		? `${shown}, below ${figure(keep.floor, 3)}`
		: `${shown}, inside ${figure(keep.floor, 3)} to ${figure(keep.ceiling, 3)}`;
	const water = standing(ask, typed);
	if (!ask.dose || !water)
		return {
			tone: low ? 'caution' : 'good',
			text: `${where}. No amount: the tank volume or the strength of the bottle is missing.`
		};
	const { medicine } = ask.dose;
	const toFloor = keep.floor * water.brimL - water.readMg;
	const free = keep.ceiling * water.brimL - water.readMg;
	const full = measured(ask.dose, keep.target * water.brimL - water.readMg, water.brimL, toFloor, free);
	if (!low || expected || again) {
		const more = typed.value > 2 * (ask.forecast ?? 0) + NEAR;
		const forecast = more ? `, more than the forecast of ${figure(ask.forecast ?? 0, 3)}` : ', as forecast';
		const said = !low ? '' : again ? ', confirmed' : forecast;
		return {
			tone: low && (again || !expected) ? 'caution' : 'good',
			text: `${where}${said}: ${full.value > 0 ? `${amountText(full)}${water.after} to ${figure(keep.target, 3)}` : 'no dose needed'}.`,
			dose: { medicine, now: full, rest: null }
		};
	}
	const room = keep.ceiling * water.brimL - Math.max(water.forecastMg, water.readMg);
	const wanted = keep.target * water.brimL - water.readMg;
	const now = measured(ask.dose, Math.min(room, wanted), water.brimL, toFloor, room);
	const rest = { ...full, value: floorToStep(Math.max(0, full.value - now.value), ask.dose.step) };
	const first =
		now.value > 0 ? `${amountText(now)} now${water.after}` : `nothing now, the forecast leaves no room`;
	const then =
		rest.value > 0 ? ` and, if it confirms, ${amountText(rest)} more to ${figure(keep.target, 3)}` : '';
	return {
		tone: 'caution',
		text: `${where} and below the forecast of ${figure(ask.forecast ?? 0, 3)}: ${first}; test again ${typed.again ?? 'tonight'}${then}.`,
		dose: { medicine, now, rest }
	};
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

function judgeWashout(clear: number, value: number, shown: string): Verdict {
	return value <= clear + NEAR
		? { tone: 'good', text: `${shown}, at or under ${figure(clear, 3)}: it counts as clear.` }
		: { tone: 'note', text: `${shown}, above ${figure(clear, 3)}: the wash-out goes on.` };
}

function judgeBounds(ask: Ask, value: number, shown: string): Verdict {
	const passed = ask.bounds.find(({ above, at }) => (above ? value > at + NEAR : value < at - NEAR));
	if (passed) return { tone: passed.tone, text: `${shown}: ${passed.text}` };
	if (ask.forecast === null) return { tone: 'good', text: `${shown}.` };
	return { tone: 'good', text: `${shown}; forecast ${figure(ask.forecast, 3)}.` };
}

function judgeAmmonia(ask: Ask, ammonia: AskedAmmonia, { value, as }: Typed): Verdict {
	const read = `${figure(value, 3)} mg/L ${formNames[as ?? 'tan'] ?? ''}`.trim();
	const total = totalOf(ammonia.share, value, as);
	if (total === null || ammonia.share === null)
		return {
			tone: 'caution',
			text: `${read}. The toxic share cannot be told: ${ammonia.water} missing. Read them too.`
		};
	const nh3 = total * ammonia.share;
	const said = `${read} → ${figure(nh3, 3)} mg/L NH3-N (${figure(nh3 * nh3PerN, 3)} as NH3) at ${ammonia.water}`;
	const wild = ask.believed && (total < ask.believed.low || total > ask.believed.high);
	const doubt = wild
		? ` Ten times off the forecast of ${figure(ask.forecast ?? 0, 3)} mg/L N: read again.`
		: '';
	if (nh3 < ammonia.act - NEAR)
		return {
			tone: wild ? 'caution' : 'good',
			text: `${said}, under the limit of ${figure(ammonia.act, 3)}.${doubt}`
		};
	const change = changeAway(ask, ammonia, total);
	const away = change.text;
	const asked = change.amount ? { away: change.amount } : {};
	if (nh3 < ammonia.override - NEAR)
		return {
			tone: 'caution',
			text: `${said}, over the limit of ${figure(ammonia.act, 3)}. Change ${away} today.${doubt}`,
			...asked
		};
	const grave = nh3 >= ammonia.emergency - NEAR;
	return {
		tone: 'stop',
		text: `${said}. ${grave ? `${figure(ammonia.emergency, 3)} is an emergency: air first, then change` : 'Change'} ${away} now, even while a medicine acts, and give back only what the change took.${doubt}`,
		card: 'fouling',
		...asked
	};
}

const formNames: Record<string, string> = {
	tan: 'total ammonia as N',
	'nh3-total': 'total ammonia as NH3',
	'nh3-free': 'free ammonia as NH3'
};

/** Total ammonia as N behind the kit's number; null where that needs the water and it is not known. */
function totalOf(share: number | null, value: number, as: string | undefined): number | null {
	if (as === 'nh3-total') return value / nh3PerN;
	if (as !== 'nh3-free') return value;
	return share === null || share === 0 ? null : value / nh3PerN / share;
}

/** The litres that bring the toxic share under the limit, as the plan asks for them; where it is most of the water, in one go: steps take out less. */
function changeAway(
	{ volumeL }: Ask,
	ammonia: AskedAmmonia,
	total: number
): { text: string; amount: Amount | null } {
	const fouled = {
		tanMgNPerL: total,
		allowedMgNPerL: ammonia.act / (ammonia.share ?? 1),
		sourceMgNPerL: ammonia.sourceMgNPerL
	};
	if (volumeL === null) return { text: `${figure(shareAway(fouled) * 100, 0)} % of the water`, amount: null };
	const value = litresAway(volumeL, fouled);
	const fraction = value / volumeL;
	const amount: Amount = { value, unit: 'L' };
	const litres = `${amountText(amount)} (${figure(fraction * 100, 0)} %)`;
	return { text: fraction > MOST_AT_ONCE ? `${litres} of matched water in one go` : litres, amount };
}

const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1);
