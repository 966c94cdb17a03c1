import { suspects, unsourced, type Target } from '../../formulary/index.ts';
import { dayNumber, dayText, type Lot } from '../../run/index.ts';
import type { Sample } from '../plan.ts';
import { figure, levelText } from '../words.ts';
import {
	dayAt,
	dosing,
	during,
	freeId,
	giving,
	levelIn,
	logOf,
	servicesIn,
	sick,
	type Check,
	type Draft,
	type Seen
} from './check.ts';

interface Arrival {
	lot: Lot;
	day: string;
	/** when they joined, where the log says so */
	atMs?: number;
	cell: string;
	/** the log restarts the credits by itself */
	restarts: boolean;
}

/** Who joins when: what the file says, and what the log says. */
function arrivals(seen: Seen): Arrival[] {
	const filed = seen.run.lots.flatMap((lot) =>
		lot.arrived ? [{ lot, day: lot.arrived, cell: `lots.${lot.id}.arrived`, restarts: false }] : []
	);
	const logged = logOf(seen).flatMap((entry) => {
		if (entry.kind !== 'fish') return [];
		const lot =
			entry.lot ?? (entry.count > 0 ? seen.run.lots.find(({ id }) => id === entry.lotId) : undefined);
		return lot
			? [
					{
						lot,
						day: dayAt(seen, entry.atMs),
						atMs: entry.atMs,
						cell: `log.${entry.id}`,
						restarts: entry.restart
					}
				]
			: [];
	});
	return [...filed, ...logged];
}

const nameOf = ({ what, id }: Lot) => what || id;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** New fish in a running tank begin the run anew for all of them. */
export const fishAdded: Check = {
	rule: 'fish-added',
	severity: 'caution',
	appliesTo: 'fish',
	about: 'fish that arrive after a course has begun',
	source: 'all in, all out: from memory',
	find: (seen) =>
		arrivals(seen).flatMap(({ lot, day, cell, restarts }): Draft[] => {
			const into = seen.plan.phases.find(({ id, from, to }) => {
				const kind = seen.run.phases.find((phase) => phase.id === id)?.kind ?? '';
				return (
					from !== null &&
					day > from &&
					(to === null || day <= to || !cell.startsWith('log.')) &&
					['hold', 'pulse', 'daily', 'low-salinity', 'transfer'].includes(kind)
				);
			});
			if (!into) return [];
			return [
				{
					severity: restarts ? 'note' : 'caution',
					date: day,
					phase: into.id,
					cell,
					message: `${capital(nameOf(lot))} join on ${day}, after phases.${into.id} began on ${into.from}.`,
					because: restarts
						? 'The days credited before count for none of them: the course begins again on that day.'
						: 'What they bring has missed the course so far, and infects those that were nearly through it.'
				}
			];
		}),
	repairs: (draft, seen) => {
		const phase = seen.run.phases.find(({ id }) => id === draft.phase);
		if (!phase || !draft.date || draft.cell?.startsWith('log.')) return [];
		return [
			{
				title: `Begin phases.${phase.id} when all are there`,
				cells: { [`phases.${phase.id}.starts`]: `on ${draft.date}` }
			}
		];
	}
};

/** What the fish meet: the water of the moment they joined, else what the service of their day leaves. */
const waterMet = (seen: Seen, day: string, atMs?: number): Sample | undefined =>
	atMs === undefined
		? servicesIn(seen).find((one) => one.day === day)?.after
		: seen.plan.levels.findLast(({ at }) => Date.parse(at) <= atMs);

/** Fish are never dropped into full strength. */
export const fishIntoCopper: Check = {
	rule: 'fish-into-copper',
	severity: 'stop',
	appliesTo: 'fish',
	about: 'fish that arrive in water that holds copper already',
	source: unsourced.J,
	find: (seen) =>
		arrivals(seen).flatMap(({ lot, day, cell, atMs }): Draft[] =>
			dosing(seen).flatMap((given): Draft[] => {
				const { phase, bottle } = given;
				if (bottle.measuredAs !== 'Cu' || !during(day, given)) return [];
				const water = waterMet(seen, day, atMs);
				const most = bottle.row.raisePerService?.value ?? (bottle.window?.low ?? 0) / 2;
				const level = water ? levelIn(water, bottle) : 0;
				if (!water || level <= most || seen.plan.begins === null || day <= seen.plan.begins) return [];
				return [
					{
						date: day,
						phase: phase.id,
						cell,
						message: `${capital(nameOf(lot))} would go into ${levelText(bottle, level)} of copper on ${day}; ${levelText(bottle, most)} is the most to meet at once.`,
						because:
							'Gills follow copper over days: let them join in clean water and rise together, or give them a tank of their own.'
					}
				];
			})
		)
};

/** Copper only once the fish eat, unless signs leave no time. */
export const copperBeforeEating: Check = {
	rule: 'copper-before-eating',
	severity: 'caution',
	appliesTo: 'fish',
	about: 'copper before the fish are seen to eat, without signs that press',
	source: unsourced.CP,
	find: (seen) =>
		dosing(seen)
			.filter(({ phase, bottle }) => phase.kind === 'hold' && bottle.measuredAs === 'Cu')
			.flatMap(({ phase, from }): Draft[] => {
				if (anySigns(seen)) return [];
				const fresh = seen.run.lots.find(({ arrived }) => arrived === from);
				const hungry = refusedBefore(seen, from);
				if (!fresh && !hungry) return [];
				return [
					{
						date: from,
						phase: phase.id,
						cell: `phases.${phase.id}.starts`,
						message: fresh
							? `Copper begins on ${from}, the day ${nameOf(fresh)} arrive.`
							: `Copper begins on ${from}, and food was refused at the last look on ${hungry}.`,
						because:
							'Copper takes the appetite first: fish without signs settle in and eat before it, two or three days as a rule.'
					}
				];
			}),
	repairs(draft, seen) {
		if (!draft.date || !draft.phase) return [];
		const from = dayNumber(draft.date);
		const phase = seen.run.phases.find(({ id }) => id === draft.phase);
		const before = seen.run.phases[seen.run.phases.findIndex(({ id }) => id === draft.phase) - 1];
		const settle = freeId(seen, 'settle');
		const later = {
			title: `Begin phases.${draft.phase} 3 days later`,
			cells: { [draft.cell ?? '']: `on ${dayText(from + 3)}` }
		};
		if (!phase?.starts || !('on' in phase.starts) || !before) return [later];
		return [
			later,
			{
				title: `Let them settle 3 days before phases.${draft.phase}`,
				insert: {
					after: before.id,
					row: {
						id: settle,
						kind: 'settle',
						starts: `on ${draft.date}`,
						lasts: '3 d',
						change: 'auto',
						test: 'NH3 daily'
					}
				},
				cells: { [draft.cell ?? '']: `after ${settle}` }
			}
		];
	}
};

const anySigns = (seen: Seen): boolean =>
	seen.run.lots.some(({ signs }) => sick(signs).length > 0) ||
	logOf(seen).some(
		(entry) => entry.kind === 'observation' && sick(entry.signs).some((sign) => sign !== 'off-feed')
	);

/** The day of the last look before this one, if food was refused then. */
function refusedBefore(seen: Seen, day: string): string | null {
	const last = logOf(seen).findLast(
		(entry) => entry.kind === 'observation' && entry.appetite !== undefined && dayAt(seen, entry.atMs) <= day
	);
	return last?.kind === 'observation' && last.appetite === 'refused' ? dayAt(seen, last.atMs) : null;
}

/** What leaves no time to settle in, and how soon its course should begin, days. */
const pressing: readonly Target[] = ['amyloodinium', 'brooklynella'];
const WITHIN_DAYS = 1;
/** Signs that together speak this loudly are acted on. */
const LOUD = 3;

/** Sick at the door picks another track: no settling in. */
export const waitsWhileSick: Check = {
	rule: 'waits-while-sick',
	severity: 'caution',
	appliesTo: 'fish',
	about: 'signs of velvet or of ciliate skin disease at the door, and a course that waits',
	source: unsourced.J,
	find: (seen) =>
		seen.run.lots.flatMap((lot): Draft[] => {
			const [suspect] = suspects(lot.signs, lot.group);
			if (!suspect || !lot.arrived || suspect.weight < LOUD || !pressing.includes(suspect.target)) return [];
			const answer = giving(seen).find(({ bottle }) => bottle.row.treats[suspect.target]);
			const waits = answer ? dayNumber(answer.from) - dayNumber(lot.arrived) : 0;
			if (!answer || waits <= WITHIN_DAYS) return [];
			return [
				{
					date: lot.arrived,
					phase: answer.phase.id,
					cell: `phases.${answer.phase.id}.starts`,
					message: `${capital(nameOf(lot))} arrive with signs of ${suspect.target}, and phases.${answer.phase.id} waits ${figure(waits, 0)} days.`,
					because: `It kills within days; its course begins within a day (${suspect.because}).`
				}
			];
		}),
	repairs: (draft) => [
		{
			title: `Begin phases.${draft.phase} on the day they arrive`,
			cells: { [draft.cell ?? '']: `on ${draft.date}` }
		}
	]
};
