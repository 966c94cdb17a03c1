import type { BathLimits } from '../../formulary/index.ts';
import type { Phase } from '../../run/index.ts';
import { isUnlabelled, measureOut, UNLABELLED, type Bottle } from '../bottle.ts';
import { dutiesOf } from '../duties.ts';
import type { Deed, Job } from '../job.ts';
import type { Bench, PhaseKindRow } from '../phase-kind.ts';
import { fallsOn, LONGEST_PLAN_DAYS } from '../recurrence.ts';
import { amountText, figure, levelText } from '../words.ts';
import { seriesOf, type Round, type Turn } from './series.ts';

/** Longest dip in fresh water when the cell does not say (Neobenedenia cured in 2 min; 2 to 5 against capsalids). */
const FRESH_WATER_MINUTES = 5;

/** A timed bath in a vessel of its own; the tank's water is not touched. */
export const dip: PhaseKindRow = {
	kind: 'dip',
	begin(phase, bottle, from, bench) {
		const duties = dutiesOf(phase, from, bench.run);
		const dips = phase.lasts && 'doses' in phase.lasts ? phase.lasts.doses : 1;
		const series = seriesOf(
			{
				name: `${phase.id}/dip/`,
				moves: bench.run.moves,
				round: (day) => roundOf(phase, day, dips),
				endsWithLast: true
			},
			from
		);
		return {
			due(service, at) {
				const jobs = duties(service, at, service.slot === 0);
				for (const turn of series.at(service)) jobs.push(dipJob(phase, bottle, turn, bench));
				return jobs;
			},
			chosen: series.chosen,
			awaits: series.awaits,
			endsWith: (service) => service.day >= series.last()
		};
	}
};

function roundOf(phase: Phase, from: number, dips: number): Round {
	const falls = fallsOn(phase.repeat ?? { everyDays: 1 }, from);
	const days: number[] = [];
	for (let day = from; day < from + LONGEST_PLAN_DAYS && days.length < dips; day++)
		if (falls(day)) days.push(day);
	// a rhythm that never comes keeps the phase waiting, which is a finding
	return { days, to: days.length > 0 ? from : Infinity, of: dips };
}

/** Strict length of one dip, minutes; null: the sheet must say. */
export function dipMinutes(phase: Phase, bottle: Bottle | null): number | null {
	if (phase.lasts && 'minutes' in phase.lasts) return phase.lasts.minutes;
	return bottle?.medicine.active === 'fresh-water' ? FRESH_WATER_MINUTES : null;
}

/** The highest level a short bath may have at this temperature; null: none is on record. */
export function strongestBath({ warm, ceiling }: BathLimits, temperatureC: number | null) {
	if (!warm || (temperatureC !== null && temperatureC <= warm.value.aboveC))
		return ceiling && { level: ceiling.value, source: ceiling.source, why: '' };
	return {
		level: warm.value.ceiling,
		source: warm.source,
		why:
			temperatureC === null ? ' (taken as warm: no temperature is given)' : ` above ${warm.value.aboveC} °C`
	};
}

/** No dip is handed out stronger or longer than fish are on record to bear, whatever the row asks. */
function borne(phase: Phase, bottle: Bottle | null, temperatureC: number | null) {
	const asked = { level: phase.level?.high ?? null, minutes: dipMinutes(phase, bottle) };
	const bath = bottle?.row.bath;
	if (!bath) return { ...asked, cut: '' };
	const most = strongestBath(bath, temperatureC)?.level ?? Infinity;
	const longest = bath.minutes.value.high;
	const strong = asked.level !== null && asked.level > most;
	const long = asked.minutes !== null && asked.minutes > longest;
	const asks = [
		...(strong && bottle ? [levelText(bottle, asked.level ?? 0)] : []),
		...(long ? [`${figure(asked.minutes ?? 0, 0)} min`] : [])
	];
	return {
		level: strong ? most : asked.level,
		minutes: long ? longest : asked.minutes,
		cut: asks.length > 0 ? ` The row asks for ${asks.join(' and ')}: cut to what fish bear.` : ''
	};
}

function dipJob(phase: Phase, bottle: Bottle | null, { n, place, of }: Turn, bench: Bench): Job {
	return {
		phase: phase.id,
		kind: 'dip',
		n: String(n),
		act: () => dipDeed(phase, bottle, place, of, bench)
	};
}

function dipDeed(phase: Phase, bottle: Bottle | null, n: number, of: number, bench: Bench): Deed {
	const { minutes, level, cut } = borne(phase, bottle, bench.run.tank.temperatureC);
	const fresh = bottle?.medicine.active === 'fresh-water';
	const litres = phase.bathL;
	const amount =
		litres === null
			? null
			: fresh
				? { value: litres, unit: 'L' as const }
				: bottle && level !== null && (bottle.row.bath || !isUnlabelled(bottle))
					? measureOut(bottle, level * litres)
					: null;
	const name = bottle ? bottle.row.name.replace(/ dip$/, '') : 'Bath';
	const missing =
		litres === null
			? 'the volume of the bath is missing'
			: !bottle
				? 'the medicine is missing'
				: level === null && !fresh
					? 'its level is missing'
					: bottle.medicine.strength && isUnlabelled(bottle)
						? UNLABELLED
						: 'the strength of the bottle is missing';
	const time = minutes === null ? 'minutes missing' : `${figure(minutes, 0)} min at most`;
	const around = `${figure(bench.run.tank.temperatureC ?? NaN, 1)} °C`.replace(
		'NaN °C',
		'the tank’s temperature'
	);
	return {
		effects: [],
		amount,
		words: () => ({
			text: amount
				? `${name} dip ${n} of ${of}: ${amountText(amount)}${fresh ? '' : ` in ${figure(litres ?? 0, 1)} L`}, ${time}`
				: `${name} dip ${n} of ${of}: no amount, ${missing}`,
			because:
				amount && level !== null && bottle && !fresh
					? `${levelText(bottle, level)} in ${figure(litres ?? 0, 1)} L asks ${amountText(amount)}; ${time}, matched to ${around} and the tank’s pH.${cut}`
					: amount
						? `Fresh water matched to ${around} and the tank’s pH, aerated; ${time}.${cut}`
						: `No dip can be justified: ${missing}.`,
			...(bottle ? { medicine: bottle.id } : {}),
			...(minutes === null ? {} : { minutes }),
			cautions: [
				'Stay with the fish and take them out at once when one rolls or gasps. The bath water goes down the drain.',
				...(bottle?.row.cautions ?? [])
			]
		})
	};
}
