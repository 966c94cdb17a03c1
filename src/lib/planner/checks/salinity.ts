import { groupRows, methods, unsourced } from '../../formulary/index.ts';
import type { Phase } from '../../run/index.ts';
import { figure } from '../words.ts';
import {
	called,
	dosing,
	during,
	NEAR,
	servicesIn,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

const method = methods['low-salinity'];
const lowered = ({ run }: Seen) => run.phases.filter(({ kind, level }) => kind === 'low-salinity' && level);
const startOf = ({ plan }: Seen, { id }: Phase) => plan.phases.find((span) => span.id === id)?.from ?? null;

/** Low salinity is for bony fish that bear it. */
export const salinityNotBorne: Check = {
	rule: 'salinity-not-borne',
	severity: 'stop',
	appliesTo: 'fish',
	about: 'a low-salinity course for fish that do not bear it, or lower than any should',
	source: unsourced.CP,
	find: (seen) => lowered(seen).flatMap((phase) => [...tooLow(seen, phase), ...tooLowFor(seen, phase)]),
	repairs: (draft, seen) => {
		const least = seen.run.lots.map(({ group }) => groupRows[group].lowestSalinityPpt?.value ?? 12);
		const ppt = Math.max(14, ...least);
		return [{ title: `Hold ${ppt} ppt`, cells: { [draft.cell ?? '']: `${ppt} ppt` } }];
	}
};

function tooLow(seen: Seen, phase: Phase): Draft[] {
	const low = phase.level?.low ?? Infinity;
	const stop = method.stopPpt;
	if (!stop || low >= stop.value - NEAR) return [];
	return [
		{
			date: startOf(seen, phase),
			phase: phase.id,
			cell: `phases.${phase.id}.level`,
			message: `phases.${phase.id} goes down to ${figure(low, 1)} ppt; ${stop.value} ppt is the least.`,
			because: 'Of 13 marine species 12 lived more than two weeks at 10 ppt, 6 at 5 ppt.',
			source: stop.source
		}
	];
}

function tooLowFor(seen: Seen, phase: Phase): Draft[] {
	const low = phase.level?.low ?? Infinity;
	return seen.run.lots.flatMap((lot): Draft[] => {
		const row = groupRows[lot.group];
		const least = row.lowestSalinityPpt;
		if (least && low >= least.value - NEAR) return [];
		const name = lot.what || row.name.toLowerCase();
		const unknown = lot.group === 'other';
		return [
			{
				severity: unknown ? 'note' : 'stop',
				date: startOf(seen, phase),
				phase: phase.id,
				cell: `phases.${phase.id}.level`,
				message: unknown
					? `Nobody here knows whether ${name} bear ${figure(low, 1)} ppt.`
					: `${name} at ${figure(low, 1)} ppt: ${least ? `${least.value} ppt is the least for the group` : 'low salinity is not for them at all'}.`,
				because:
					(least?.note && `${least.note}.`) ??
					'Low salinity is for bony fish that are known to bear it: no sharks, rays or invertebrates.',
				source: least?.source
			}
		];
	});
}

/** A low salinity that does nothing. */
export const salinityTooHigh: Check = {
	rule: 'salinity-too-high',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a low-salinity course above the salinity that breaks cysts',
	source: unsourced.CP,
	find: (seen) =>
		lowered(seen).flatMap((phase) => {
			const most = method.creditPpt;
			const level = phase.level?.high ?? 0;
			if (!most || level <= most.value + NEAR) return [];
			return [
				{
					date: startOf(seen, phase),
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					message: `phases.${phase.id} holds ${figure(level, 1)} ppt; a day counts at ${most.value} ppt or less.`,
					because: `Cysts burst at ${most.value} ppt and under; keepers hold 12 to 14 so that a reading error of 1 or 2 does no harm.`,
					source: most.source
				}
			];
		}),
	repairs: (draft) => [{ title: 'Hold 14 ppt', cells: { [draft.cell ?? '']: '14 ppt' } }]
};

/** Down may be quick, up may not. */
export const riseTooFast: Check = {
	rule: 'rise-too-fast',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'salinity raised faster than 2 ppt a day',
	source: unsourced.CP,
	find: (seen) =>
		seen.run.phases.flatMap((phase) => {
			const most = method.upPptPerDay;
			const rise = phase.risePptPerDay ?? 0;
			if (phase.kind !== 'low-salinity' || !most || rise <= most.value + NEAR) return [];
			return [
				{
					date: startOf(seen, phase),
					phase: phase.id,
					cell: `phases.${phase.id}.rise`,
					message: `phases.${phase.id} rises by ${figure(rise, 1)} ppt a day; ${most.value} is the most.`,
					because: 'Fish lose water to saltier water faster than they can drink it back.',
					source: most.source
				}
			];
		}),
	repairs: (draft) => [{ title: 'Rise by 2 ppt a day', cells: { [draft.cell ?? '']: '2 ppt/d' } }]
};

/** Water too warm, too thin or too sour for the medicine. */
export const medicineConditions: Check = {
	rule: 'medicine-conditions',
	severity: 'caution',
	appliesTo: 'medicine',
	about: 'temperature, salinity or pH outside what the medicine asks',
	source: 'the limits of the shelf',
	find: (seen) =>
		dosing(seen).flatMap((given) => [
			...tooWarm(seen, given),
			...tooThin(seen, given),
			...tooSour(seen, given)
		])
};

/** Sources stop at 26 to 27 °C: the upper end is still inside. */
const GRACE_C = 1;

function tooWarm({ run: { tank } }: Seen, { phase, bottle, from }: Given): Draft[] {
	const max = bottle.row.temperatureC;
	if (max?.value.max == null || tank.temperatureC === null || tank.temperatureC <= max.value.max + GRACE_C)
		return [];
	return [
		{
			date: from,
			phase: phase.id,
			cell: 'tank.temperature',
			message: `${bottle.row.name} at ${figure(tank.temperatureC, 1)} °C; sources stop at ${max.value.max} to ${max.value.max + GRACE_C} °C.`,
			because: 'It grows more toxic with warmth, while the water holds less oxygen.',
			source: max.source
		}
	];
}

function tooThin(seen: Seen, given: Given): Draft[] {
	const { phase, bottle, from } = given;
	const min = bottle.row.salinityPpt;
	if (min?.value.min == null) return [];
	const floor = min.value.min;
	const thin = servicesIn(seen).find(
		({ day, after }) => during(day, given) && after.salinityPpt !== null && after.salinityPpt < floor - NEAR
	);
	if (!thin) return [];
	return [
		{
			date: thin.day > from ? thin.day : from,
			phase: phase.id,
			cell: 'tank.salinity',
			message: `${bottle.row.name} in ${figure(thin.after.salinityPpt ?? 0, 1)} ppt; not under ${floor} ppt.`,
			because: `${min.note ?? 'It acts harder in thin water'}.`.replace(/^./, (first) => first.toUpperCase()),
			source: min.source
		}
	];
}

function tooSour({ run: { tank } }: Seen, { phase, bottle, from }: Given): Draft[] {
	const min = bottle.row.pH;
	if (min?.value.min == null || tank.pH === null || tank.pH >= min.value.min - NEAR) return [];
	return [
		{
			date: from,
			phase: phase.id,
			cell: 'tank.pH',
			message: `${bottle.row.name} at pH ${figure(tank.pH, 2)}; not under pH ${min.value.min}.`,
			because: `${min.note ?? `Low pH makes ${called(bottle)} act harder`}.`.replace(/^./, (first) =>
				first.toUpperCase()
			),
			source: min.source
		}
	];
}
