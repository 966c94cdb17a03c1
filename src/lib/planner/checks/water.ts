import type { Chance } from '../chance.ts';
import { figure } from '../words.ts';
import { dosing, judgment, practice, type Check, type Draft, type Seen } from './check.ts';

const NEAR = 1e-9;
const MOST_NITRATE_MG_PER_L = 50;
const before = ({ plan }: Seen) => plan.levels.filter(({ when }) => when === 'before');
const ahead = (seen: Seen) => before(seen).filter(({ at }) => Date.parse(at) >= seen.nowMs);

/** More fish, food or time than the changes can answer for; with the number that would do. */
export const ammoniaOver: Check = {
	rule: 'ammonia-over',
	severity: 'caution',
	about: 'NH3-N over its limit before a service',
	source:
		'act at 0.02 mg/L NH3-N, emergency at 0.1 (judgment, no source); stress from about 0.02 (NRAC 111-1993)',
	find(seen) {
		const { nh3MgNPerL: limit } = seen.run.limits;
		const over = ahead(seen).filter(({ nh3MgNPerL }) => (nh3MgNPerL ?? 0) > limit + NEAR);
		const [first] = over;
		if (!first) return [];
		const worst = over.reduce((most, sample) =>
			(sample.nh3MgNPerL ?? 0) > (most.nh3MgNPerL ?? 0) ? sample : most
		);
		const day = first.date;
		const phase =
			seen.plan.phases.find(({ from, to }) => from !== null && from <= day && (to === null || to >= day))
				?.id ?? null;
		return [
			{
				severity: (worst.nh3MgNPerL ?? 0) > 0.1 ? 'stop' : 'caution',
				date: day,
				phase,
				cell: phase ? `phases.${phase}.change` : 'tank.net',
				message: `NH3-N passes ${figure(limit, 3)} mg/L (as N) on ${day} and reaches ${figure(worst.nh3MgNPerL ?? 0, 3)} on ${worst.date}.`,
				because: capacity(seen)
			}
		];
	},
	repairs: ({ phase }) =>
		phase
			? [
					{ title: 'Let changes plan themselves', cells: { [`phases.${phase}.change`]: 'auto' } },
					{ title: 'Change half every day', cells: { [`phases.${phase}.change`]: '50% daily' } }
				]
			: []
};

/** What the water carries when half of it is changed at every chance: litres, food or fish that would do. */
function capacity(seen: Seen): string {
	const share = bearable(seen.walked?.chances ?? [], seen.run.limits.nh3MgNPerL);
	const { netL } = seen.run.tank;
	if (share === null || share >= 1 || netL === null) return 'More or larger changes would hold it.';
	const feed = seen.run.lots.reduce((sum, { feedGPerDay }) => sum + (feedGPerDay ?? 0), 0);
	const fish = seen.run.lots.reduce((sum, { count }) => sum + count, 0);
	const some = Math.floor(fish * share);
	const few = some > 0 ? `, or ${some} of the ${fish} fish` : '';
	const food =
		feed > 0 ? `, or ${figure(feed * share, 2)} g of food a day instead of ${figure(feed, 2)}` : '';
	return `Even half the water at every chance does not hold it: it would take ${Math.ceil(netL / share)} L${food}${few}.`;
}

/** Largest share of the planned production that half changes at every open chance keep inside the limit. */
export function bearable(chances: readonly Chance[], limitMgNPerL: number): number | null {
	const line = chances.filter(({ future }) => future);
	const [first] = line;
	if (!first) return null;
	let base = first.tanMg;
	let made = 0;
	let share = Infinity;
	line.forEach((chance, i) => {
		if (i > 0) {
			base = chance.alpha * base;
			made = chance.alpha * made + chance.betaMg;
			if (chance.toxicShare && made > 0)
				share = Math.min(share, ((limitMgNPerL / chance.toxicShare) * chance.beforeL - base) / made);
		}
		const half = chance.auto && chance.open ? 0.5 : 1;
		base = (base * chance.keepTan + chance.addTanMg) * half;
		made *= chance.keepTan * half;
	});
	return Number.isFinite(share) ? Math.max(0, share) : null;
}

/** Nitrate is a note up to 50 and never a stop; when the source stands in the way that is said once. */
export const nitrateOver: Check = {
	rule: 'nitrate-over',
	severity: 'note',
	about: 'nitrate over its limit before a service',
	source: practice,
	find(seen) {
		const { nitrateMgPerL: limit } = seen.run.limits;
		const { nitrateMgPerL: source } = seen.run.source;
		const over = ahead(seen).filter(({ nitrateMgPerL }) => nitrateMgPerL > limit + NEAR);
		const [first] = over;
		if (source >= limit)
			return [
				{
					date: null,
					phase: null,
					cell: 'source.nitrate',
					message: `The source water carries ${figure(source, 1)} mg/L nitrate; the limit of ${figure(limit, 1)} cannot be held with it.`,
					because: 'The plan holds what can be held. Nitrate alone harms little below 50 mg/L.'
				}
			];
		if (!first) return [];
		const most = Math.max(...over.map(({ nitrateMgPerL }) => nitrateMgPerL));
		return [
			{
				severity: most > MOST_NITRATE_MG_PER_L ? 'caution' : 'note',
				date: first.date,
				phase: null,
				cell: 'limits.nitrate',
				message: `Nitrate passes ${figure(limit, 1)} mg/L on ${first.date} and reaches ${figure(most, 1)}.`,
				because: 'Nitrate alone harms little below 50 mg/L; it shows how little water was renewed.'
			}
		];
	}
};

/** Something must renew the water at least once a week. */
export const weekWithoutChange: Check = {
	rule: 'week-without-change',
	severity: 'caution',
	about: 'more than seven days without a water change',
	source: practice,
	find(seen) {
		const days = seen.plan.tasks
			.filter(({ kind }) => ['change', 'washout', 'transfer', 'salinity'].includes(kind))
			.map(({ date }) => date);
		const { begins } = seen.plan;
		const end = seen.plan.levels.at(-1)?.date;
		if (!begins || !end || seen.run.lots.length === 0) return [];
		const marks = [begins, ...new Set(days), end];
		const gap = marks.findIndex((day, i) => i > 0 && daysBetween(marks[i - 1] ?? day, day) > 7);
		if (gap < 0) return [];
		const from = marks[gap - 1] ?? begins;
		const rests = seen.plan.phases.find(
			(span) => span.from !== null && span.from <= (marks[gap] ?? end) && (span.to === null || span.to > from)
		);
		return [
			{
				date: from,
				phase: rests?.id ?? null,
				...(rests ? { cell: `phases.${rests.id}.change` } : {}),
				message: `No water is changed for ${daysBetween(from, marks[gap] ?? end)} days from ${from}.`,
				because: 'What no test shows gathers all the same; a bare tank is renewed at least weekly.'
			}
		];
	},
	repairs: ({ phase }) =>
		phase
			? [
					{ title: 'Let changes plan themselves', cells: { [`phases.${phase}.change`]: 'auto' } },
					{ title: 'Change a quarter weekly', cells: { [`phases.${phase}.change`]: '25% weekly' } }
				]
			: []
};

const daysBetween = (a: string, b: string) => Math.round((Date.parse(b) - Date.parse(a)) / 86_400_000);

/** Smaller does nothing, larger shocks; wash-outs, moves and salinity steps are another matter. */
export const changeSize: Check = {
	rule: 'change-size',
	severity: 'note',
	about: 'a planned change outside 20 to 50 percent',
	source: practice,
	find: ({ run }) =>
		run.phases.flatMap((phase): Draft[] => {
			const fraction = phase.change && 'fraction' in phase.change ? phase.change.fraction : null;
			if (
				fraction === null ||
				phase.kind === 'washout' ||
				phase.kind === 'transfer' ||
				(fraction >= 0.2 - NEAR && fraction <= 0.5 + NEAR)
			)
				return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `phases.${phase.id}.change`,
					message: `Changes of ${figure(fraction * 100, 1)} % are outside 20 to 50 %.`,
					because:
						fraction < 0.2
							? 'Smaller ones hardly lower anything.'
							: 'Larger ones shock fish unless temperature, salinity and pH are all matched.'
				}
			];
		}),
	repairs: (draft, { run }) => {
		const change = run.phases.find(({ id }) => id === draft.phase)?.change;
		const low = change && 'fraction' in change && change.fraction < 0.2;
		const every =
			change && 'repeat' in change && 'everyDays' in change.repeat
				? `every ${change.repeat.everyDays} d`
				: 'every 3 d';
		return [
			{ title: `Change ${low ? 20 : 50} %`, cells: { [draft.cell ?? '']: `${low ? 20 : 50}% ${every}` } }
		];
	}
};

/** A change is judged by what it does to the tank. */
export const sourceUnmatched: Check = {
	rule: 'source-unmatched',
	severity: 'caution',
	about: 'source water that would move temperature, salinity or pH, or that carries ammonia',
	source: judgment,
	find({ run, plan }) {
		const largest = plan.tasks.reduce(
			(most, { kind, fraction, id }) =>
				kind === 'change' && (fraction ?? 0) > most.fraction ? { fraction: fraction ?? 0, id } : most,
			{ fraction: 0, id: '' }
		);
		const { source, tank } = run;
		if (largest.fraction === 0) return [];
		const moved = (own: number | null, other: number | null) =>
			own === null || other === null ? 0 : largest.fraction * (other - own);
		const share = `${figure(largest.fraction * 100, 0)} %`;
		const drafts: Draft[] = [];
		const say = (cell: string, message: string, because: string) =>
			drafts.push({ date: null, phase: null, cell, message, because });
		const heat = moved(tank.temperatureC, source.temperatureC);
		if (
			Math.abs(heat) > 1 ||
			(source.temperatureC !== null &&
				tank.temperatureC !== null &&
				Math.abs(source.temperatureC - tank.temperatureC) > 2)
		)
			say(
				'source.temperature',
				`A change of ${share} with water at ${figure(source.temperatureC ?? 0, 1)} °C moves the tank by ${figure(heat, 1)} °C.`,
				'More than 1 °C at once is a shock: heat the new water first.'
			);
		const salt = moved(tank.salinityPpt, source.salinityPpt);
		const lowering = run.phases.some(({ kind }) => kind === 'low-salinity');
		if (salt > 1 && !lowering)
			say(
				'source.salinity',
				`A change of ${share} raises salinity by ${figure(salt, 1)} ppt.`,
				'More than 1 ppt upward at once is a shock.'
			);
		const acid = moved(tank.pH, source.pH);
		if (Math.abs(acid) > 0.2)
			say(
				'source.pH',
				`A change of ${share} moves pH by about ${figure(acid, 2)}.`,
				'A rise of pH also makes the ammonia that is there more toxic.'
			);
		if (source.ammoniaMgNPerL > 0)
			say(
				'source.ammonia',
				`The source water carries ${figure(source.ammoniaMgNPerL, 2)} mg/L total ammonia (as N).`,
				'Each change brings some in; the plan counts it.'
			);
		return drafts;
	},
	repairs(draft, { run }) {
		const { tank } = run;
		if (draft.cell === 'source.temperature' && tank.temperatureC !== null)
			return [
				{
					title: 'Heat or cool it to the tank first',
					cells: { 'source.temperature': `${tank.temperatureC} C` }
				}
			];
		if (draft.cell === 'source.salinity' && tank.salinityPpt !== null)
			return [
				{ title: 'Mix it to the tank’s salinity', cells: { 'source.salinity': `${tank.salinityPpt} ppt` } }
			];
		if (draft.cell === 'source.pH' && tank.pH !== null)
			return [{ title: 'Match its pH first', cells: { 'source.pH': tank.pH } }];
		return [];
	}
};

/** A rule of the trade for small fish; never more than a note, and silent while the forecast is good. */
export const stocking: Check = {
	rule: 'stocking',
	severity: 'note',
	about: 'more than five fish in 114 L, while ammonia is not held either',
	source: practice,
	find(seen) {
		const { netL } = seen.run.tank;
		const fish = seen.run.lots.reduce((sum, { count }) => sum + count, 0);
		const bad = ahead(seen).some(({ nh3MgNPerL }) => (nh3MgNPerL ?? 0) > seen.run.limits.nh3MgNPerL + NEAR);
		if (netL === null || !bad || fish <= (5 * netL) / 114) return [];
		return [
			{
				date: null,
				phase: null,
				cell: 'lots',
				message: `${fish} fish in ${figure(netL, 0)} L; keepers count four to five small ones to 114 L.`,
				because: 'The forecast of ammonia says the same.'
			}
		];
	}
};

/** The heater holds more loosely than fish and life cycles bear. */
export const heatLoose: Check = {
	rule: 'heat-loose',
	severity: 'caution',
	about: 'temperature not held within two degrees',
	source: practice,
	find: ({ run }) =>
		run.tank.heaterWithinC !== null && run.tank.heaterWithinC > 2
			? [
					{
						date: null,
						phase: null,
						cell: 'tank.heater.holdsWithin',
						message: `The heater holds within ${figure(run.tank.heaterWithinC, 1)} °C only.`,
						because:
							'Swings of more than 2 °C weaken fish, and the life cycles the plan counts on move with them.'
					}
				]
			: [],
	repairs: () => [
		{ title: 'Use one that holds within 1 °C', cells: { 'tank.heater': { holdsWithin: '1 C' } } }
	]
};

/** Water too warm, too thin or too sour for the medicine. */
export const medicineConditions: Check = {
	rule: 'medicine-conditions',
	severity: 'caution',
	about: 'temperature, salinity or pH outside what the medicine asks',
	source: 'the shelf’s limits',
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from }): Draft[] => {
			const { row } = bottle;
			const { tank } = seen.run;
			const drafts: Draft[] = [];
			const say = (cell: string, message: string, because: string, source: string) =>
				drafts.push({ date: from, phase: phase.id, cell, message, because, source });
			const hot = row.temperatureC?.value.max ?? null;
			if (hot !== null && tank.temperatureC !== null && tank.temperatureC > hot + 1)
				say(
					'tank.temperature',
					`${figure(tank.temperatureC, 1)} °C is over ${figure(hot, 1)} °C, where sources on ${row.name.toLowerCase()} stop.`,
					'It grows more toxic and oxygen grows scarce.',
					row.temperatureC?.source ?? ''
				);
			const thin = row.salinityPpt?.value.min ?? null;
			const salinity = Math.min(
				tank.salinityPpt ?? Infinity,
				lowestDuring(seen, from, seen.plan.phases.find(({ id }) => id === phase.id)?.to ?? null)
			);
			if (thin !== null && salinity < thin - NEAR)
				say(
					'tank.salinity',
					`${row.name} in ${figure(salinity, 1)} ppt: not under ${figure(thin, 0)} ppt.`,
					row.salinityPpt?.note ?? 'It bites harder in thin water.',
					row.salinityPpt?.source ?? ''
				);
			const sour = row.pH?.value.min ?? null;
			if (sour !== null && tank.pH !== null && tank.pH < sour - NEAR)
				say(
					'tank.pH',
					`${row.name} at pH ${figure(tank.pH, 2)}: not under pH ${figure(sour, 1)}.`,
					row.pH?.note ?? 'It bites harder in sour water of low alkalinity.',
					row.pH?.source ?? ''
				);
			return drafts;
		})
};

const lowestDuring = ({ plan }: Seen, from: string, to: string | null): number =>
	Math.min(
		Infinity,
		...plan.levels
			.filter(({ date }) => date >= from && (to === null || date <= to))
			.map(({ salinityPpt }) => salinityPpt ?? Infinity)
	);
