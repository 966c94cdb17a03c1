import type { Phase } from '../../run/index.ts';
import { saltToRaiseG } from '../../water/index.ts';
import type { Service } from '../clock.ts';
import { creditLedger } from '../credit.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import type { Bench, PhaseKindRow } from '../phase-kind.ts';
import { freshWater } from '../tank-water.ts';
import { amountText, figure } from '../words.ts';

/** Most that one step may lower, and how long the whole descent takes at least (common practice, no source). */
const DROP_PPT = 8;
const DESCENT_DAYS = 2;
/** Rise per day when the row does not say: the most that is allowed (common practice, no source). */
const RISE_PPT_PER_DAY = 2;
/** Credit counts at or under this salinity (common practice, no source). */
export const CREDIT_PPT = 16;
const NEAR_PPT = 1e-9;

/** Down in allowed steps, hold, and up no faster than a fish can follow. */
export const lowSalinity: PhaseKindRow = {
	kind: 'low-salinity',
	begin(phase, _bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const low = phase.level ? phase.level.high : null;
		const home = bench.run.source.salinityPpt ?? bench.run.tank.salinityPpt;
		const start = bench.salinityPpt();
		const needDays = phase.lasts && 'days' in phase.lasts ? phase.lasts.days : 1;
		const ledger = creditLedger({ needDays, floor: -CREDIT_PPT, breakFloor: null, testWithinDays: null });
		const down = low === null || start === null ? [] : descent(start, low);
		const up: number[] = [];
		let step = 0;
		let rising = false;
		let lastEarned = from;

		const target = (service: Service): number | null => {
			if (service.slot > 0) return null;
			if (!rising) return down[step] ?? null;
			return up[step - down.length] ?? null;
		};
		return {
			passed({ from: start, wallDays, saltiestPpt }) {
				if (rising) return;
				const before = ledger.days();
				if (saltiestPpt !== null) ledger.passed(start.wall, wallDays, -saltiestPpt, null);
				if (ledger.days() > before) lastEarned = start.day;
			},
			due(service, at) {
				if (!rising && ledger.full() && service.slot === 0 && low !== null && home !== null) {
					rising = true;
					up.push(...ascent(low, home, phase.risePptPerDay ?? RISE_PPT_PER_DAY));
				}
				const jobs = duties(service, at);
				const next = at.away(service.day) ? null : target(service);
				if (next !== null) jobs.push(stepJob(phase, next, step + 1, at, () => step++));
				return jobs;
			},
			stuck: (service) =>
				low === null || start === null || (!rising && service.day - lastEarned > DROP_PPT * 10),
			endsWith: () => rising && step >= down.length + up.length,
			credit: ledger.days,
			restart: ledger.restart,
			chosen({ taken }) {
				if (taken === 'restart' && !rising) ledger.restart();
				return false;
			}
		};
	}
};

/** Equal steps a day apart, none larger than allowed, spread over at least two days. */
export function descent(start: number, low: number): number[] {
	if (start <= low) return [];
	const steps = Math.max(DESCENT_DAYS + 1, Math.ceil((start - low) / DROP_PPT - NEAR_PPT));
	return Array.from({ length: steps }, (_, i) => start + ((low - start) * (i + 1)) / steps);
}

/** Steps a day apart, none faster than `perDay`, the last one home. */
export function ascent(low: number, home: number, perDay: number): number[] {
	const steps = Math.max(0, Math.ceil((home - low) / perDay - NEAR_PPT));
	return Array.from({ length: steps }, (_, i) => low + ((home - low) * (i + 1)) / steps);
}

function stepJob(phase: Phase, to: number, n: number, bench: Bench, applied: () => void): Job {
	return {
		phase: phase.id,
		kind: 'salinity',
		n: String(n),
		applied,
		act({ central }) {
			const now = central.saltG / central.volumeL;
			const raises = { from: now, to, unit: 'ppt' as const };
			const known = bench.netL !== null;
			if (to < now) {
				const fraction = 1 - to / now;
				const amount = { value: fraction * central.volumeL, unit: 'L' as const };
				return {
					effects: [{ does: 'change', fraction, water: freshWater }],
					amount: known ? amount : null,
					words: () => ({
						text: known
							? `Replace ${amountText(amount)} by fresh water: ${figure(to, 1)} ppt`
							: `Lower to ${figure(to, 1)} ppt: tank volume missing`,
						because: `From ${figure(now, 1)} to ${figure(to, 1)} ppt takes out ${figure(fraction * 100, 1)} % (1 − ${figure(to, 1)}/${figure(now, 1)}); dechlorinated, aired, same temperature and pH.`,
						raises,
						fraction
					})
				};
			}
			const grams = bench.netL === null ? null : dissolve(central.volumeL, now, to, bench);
			const amount = grams === null ? null : { value: grams, unit: 'g' as const };
			return {
				effects: [{ does: 'salt', pptL: (to - now) * central.volumeL }],
				amount,
				words: () => ({
					text: amount
						? `Add ${amountText(amount)} of sea salt: ${figure(to, 1)} ppt`
						: `Raise to ${figure(to, 1)} ppt: no amount, the volume is missing or the salinity out of range`,
					because: `From ${figure(now, 1)} to ${figure(to, 1)} ppt, counted as dry salt: dissolve it first, go by the refractometer.`,
					raises
				})
			};
		}
	};
}

/** A tank said to be outside the range of the sea-water equation is weighed as at 25 °C: the mass hardly differs. */
const REFERENCE_C = 25;

/** Grams of dry salt; null where the salinities are outside the range of the sea-water equation. */
function dissolve(volumeL: number, fromPpt: number, toPpt: number, bench: Bench): number | null {
	const temperatures = [bench.run.tank.temperatureC ?? REFERENCE_C, REFERENCE_C];
	for (const temperatureC of temperatures) {
		const grams = saltToRaiseG({ volumeL, fromPpt, toPpt, temperatureC });
		if (grams.ok) return grams.value;
	}
	return null;
}
