import { unsourced } from '../../formulary/index.ts';
import type { Lot } from '../../run/index.ts';
import { nh3PerN } from '../../water/index.ts';
import type { Sample } from '../plan.ts';
import { lotProduction, unknownProduction } from '../stock.ts';
import { figure } from '../words.ts';
import { bearableShare, bearableSize, holds, type Reach } from './capacity.ts';
import {
	bottlesIn,
	called,
	dosing,
	levelIn,
	NEAR,
	servicesIn,
	type Candidate,
	type Check,
	type Seen
} from './check.ts';

/** NH3-N that no plan should lead to: gills are harmed from about here. */
const HARM_MG_N_PER_L = 0.05;

/** What coming services find, with their days. */
const coming = (seen: Seen) => servicesIn(seen).filter(({ before }) => Date.parse(before.at) >= seen.nowMs);

const toxic = ({ nh3MgNPerL }: Sample) => nh3MgNPerL ?? 0;

/** More fish, food or time than the changes can answer for; with the number that would do. */
export const ammoniaOver: Check = {
	rule: 'ammonia-over',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'NH3-N over its limit before a service',
	source: 'act at 0.02 mg/L NH3-N: judgment, no source; gills are harmed from 0.05 mg/L: UF/IFAS FA16',
	find(seen) {
		const { nh3MgNPerL: limit } = seen.run.limits;
		const over = coming(seen).filter(({ before }) => toxic(before) > limit * (1 + NEAR));
		const [first] = over;
		if (!first) return [];
		const worst = over.reduce((most, one) => (toxic(one.before) > toxic(most.before) ? one : most));
		const row = rowOn(seen, first.day);
		const peak = toxic(worst.before);
		return [
			{
				severity: peak > HARM_MG_N_PER_L ? 'stop' : 'caution',
				date: first.day,
				phase: row?.id ?? null,
				cell: row ? `phases.${row.id}.change` : 'tank.net',
				message: `Toxic ammonia passes ${figure(limit, 3)} mg/L NH3-N on ${first.day} and reaches ${figure(peak, 3)} on ${worst.day} (${figure(peak * nh3PerN, 3)} as NH3).`,
				because: whatWouldDo(seen)
			}
		];
	},
	repairs: (draft, seen) => moreChanges(seen, draft.phase)
};

/** The row on a day whose change cell a keeper would reach for: an automatic one, else the first that may have one. */
export function rowOn({ run, plan }: Seen, day: string) {
	const active = run.phases.filter(({ id, kind }) => {
		const span = plan.phases.find((one) => one.id === id);
		return span?.from && span.from <= day && (span.to === null || span.to >= day) && kind !== 'release';
	});
	return active.find(({ change }) => change && 'auto' in change) ?? active[0];
}

/** Let one row, then all rows, plan their changes; then half the water a day. */
export function moreChanges({ run }: Seen, id: string | null): Candidate[] {
	if (!id) return [];
	const rows = run.phases.filter(
		({ kind, change }) =>
			['settle', 'observe', 'hold', 'pulse', 'daily'].includes(kind) && !(change && 'auto' in change)
	);
	return [
		{ title: `Let changes in phases.${id} plan themselves`, cells: { [`phases.${id}.change`]: 'auto' } },
		{
			title: 'Let changes plan themselves in every row',
			cells: Object.fromEntries(rows.map((row) => [`phases.${row.id}.change`, 'auto']))
		},
		{ title: `Change half daily in phases.${id}`, cells: { [`phases.${id}.change`]: '50% daily' } }
	];
}

/** Litres, food or fish that half the water at every chance could answer for. */
function whatWouldDo(seen: Seen): string {
	const chances = (seen.walked?.chances ?? []).filter(({ future }) => future);
	const { nh3MgNPerL: limit } = seen.run.limits;
	const { netL } = seen.run.tank;
	if (netL === null || holds(chances, limit, { made: 1, size: 1 }, 'every'))
		return 'More changes, or larger ones, would hold it.';
	const reach: Reach = chances.some(({ auto }) => auto) ? 'automatic' : 'every';
	const share = bearableShare(chances, limit, reach);
	const size = bearableSize(chances, limit, reach);
	const ways = [
		...(size === null ? [] : [`${figure(Math.ceil(netL * size), 0)} L of water`]),
		...food(seen, share),
		...fewer(seen, share)
	];
	const best = 'Half the water at every chance does not hold it';
	if (ways.length === 0) return `${best}, nor would any tank: look at the source water and the pH.`;
	const starving = fastsTooMuch(seen, share)
		? ` Feeding less is no way out: even fasting they give off too much for ${figure(netL, 1)} L.`
		: '';
	return `${best}: it would take ${ways.join(', or ')}.${starving}`;
}

const madeMgPerDay = (lots: readonly Lot[]): number =>
	lots.reduce((sum, lot) => sum + lotProduction(lot, 'central'), 0);

const fastsTooMuch = ({ run: { lots } }: Seen, share: number): boolean =>
	madeMgPerDay(lots.map((lot) => ({ ...lot, feedGPerDay: 0 }))) > madeMgPerDay(lots) * share;

/** Feeding less helps only down to what fish that eat nothing give off. */
function food(seen: Seen, share: number): string[] {
	const { lots } = seen.run;
	const feed = lots.reduce((sum, { feedGPerDay }) => sum + (feedGPerDay ?? 0), 0);
	const stated = lots.some((lot) => lot.tanMgPerDay !== null || unknownProduction(lot));
	if (feed === 0 || stated || fastsTooMuch(seen, share)) return [];
	return [`${figure(Math.floor(feed * share * 100) / 100, 2)} g of food a day instead of ${figure(feed, 2)}`];
}

function fewer({ run: { lots } }: Seen, share: number): string[] {
	const fish = lots.reduce((sum, { count }) => sum + count, 0);
	const some = Math.floor(fish * share);
	return some > 0 ? [`${some} of these ${fish} fish`] : [];
}

/** A rule of the trade for small fish: never more than a note, and silent while the forecast is good. */
export const stocking: Check = {
	rule: 'stocking',
	severity: 'note',
	appliesTo: 'fish',
	about: 'more than five small fish in 114 L, while ammonia is not held either',
	source: unsourced.CP,
	find(seen) {
		const { netL } = seen.run.tank;
		const fish = seen.run.lots.reduce((sum, { count }) => sum + count, 0);
		const held = coming(seen).every(({ before }) => toxic(before) <= seen.run.limits.nh3MgNPerL * (1 + NEAR));
		if (netL === null || held || fish <= Math.round((5 * netL) / 114)) return [];
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

/** Nitrate from here on is more than a sign of little change (from memory: keep under 50 to 100). */
const NITRATE_CAUTION_MG_PER_L = 50;

/** Nitrate is a note up to 50 and never a stop; when the source stands in the way that is said once. */
export const nitrateOver: Check = {
	rule: 'nitrate-over',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'nitrate over its limit before a service',
	source: 'keepers aim at 10 mg/L: common practice, no source; harm under 50 mg/L is slight: from memory',
	find(seen) {
		const { nitrateMgPerL: limit } = seen.run.limits;
		const source = seen.run.source.nitrateMgPerL;
		const over = coming(seen).filter(({ before }) => before.nitrateMgPerL > limit * (1 + NEAR));
		const [first] = over;
		if (!first) return [];
		const most = Math.max(...over.map(({ before }) => before.nitrateMgPerL));
		const severity = most > NITRATE_CAUTION_MG_PER_L ? 'caution' : 'note';
		const blocked = source >= limit;
		return [
			{
				severity,
				date: blocked ? null : first.day,
				phase: null,
				cell: blocked ? 'source.nitrate' : 'limits.nitrate',
				message: blocked
					? `The source water carries ${figure(source, 1)} mg/L nitrate: a limit of ${figure(limit, 1)} cannot be held with it, up to ${figure(most, 1)} is to be expected.`
					: `Nitrate passes ${figure(limit, 1)} mg/L on ${first.day} and reaches ${figure(most, 1)}.`,
				because: blocked
					? 'No change gets below what it brings; the plan holds what can be held.'
					: 'Nitrate alone harms little below 50 mg/L; it shows how little water was renewed.'
			}
		];
	},
	repairs: (draft, seen) => (draft.date ? moreChanges(seen, rowOn(seen, draft.date)?.id ?? null) : [])
};

/** A medicine that harms filter bacteria: the forecast counts no filter meanwhile. */
export const filterStalls: Check = {
	rule: 'filter-stalls',
	severity: 'note',
	appliesTo: 'tank',
	about: 'a medicine that stalls the filter the forecast counts on',
	source: 'the filter column of the shelf',
	find(seen) {
		const { filterClearsLPerDay: clears } = seen.run.tank;
		if (clears === 0) return [];
		const stalled = dosing(seen).find(
			({ bottle }) =>
				bottle.row.harmsFilter.value &&
				servicesIn(seen).some(({ after }) => levelIn(after, bottle) > bottle.clear)
		);
		if (!stalled) return [];
		const { bottle, phase, from } = stalled;
		const others = bottlesIn(seen).length > 1 ? ` of ${called(bottle)}` : '';
		return [
			{
				date: from,
				phase: phase.id,
				cell: 'tank.filterClears',
				message: `${bottle.row.name} harms filter bacteria: from ${from} the filter’s ${figure(clears, 0)} L a day count as none.`,
				because: `The forecast counts on it again once the level${others} is under ${figure(bottle.clear, 3)} ${bottle.row.unit}; a harmed filter may take weeks.`,
				source: bottle.row.harmsFilter.source
			}
		];
	}
};
