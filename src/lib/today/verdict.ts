import {
	amountText,
	figure,
	litresAway,
	MOST_AT_ONCE,
	shareAway,
	slippedUnit,
	type Amount
} from '../planner/index.ts';
import { nh3PerN } from '../water/index.ts';
import type { Ask, AskedAmmonia, Verdict } from './ask.ts';
import { judgeHeld, NEAR, type Typed } from './held.ts';

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
