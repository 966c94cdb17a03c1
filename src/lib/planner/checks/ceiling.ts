import { mostAllowed, type Bottle } from '../bottle.ts';
import { holdLevels, isAboveCeiling } from '../phases/hold.ts';
import { figure, levelText } from '../words.ts';
import { unsourced } from '../../formulary/index.ts';
import {
	bottleOf,
	bottlesIn,
	called,
	dayAt,
	dosing,
	during,
	firstPer,
	levelIn,
	logOf,
	NEAR,
	phaseOf,
	servicesIn,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

/** No level may pass a ceiling, whether the sheet asks for it or the water gets there. */
export const aboveCeiling: Check = {
	rule: 'above-ceiling',
	severity: 'stop',
	appliesTo: 'medicine',
	about: 'a level over its ceiling, asked for or reached',
	source: 'the ceiling of the shelf, or of the bottle',
	find: (seen) => [...dosing(seen).flatMap((given) => asked(given) ?? []), ...reached(seen)],
	repairs(draft, seen) {
		const given = dosing(seen).find(({ phase }) => phase.id === draft.phase);
		const ceiling = given && mostAllowed(given.bottle);
		if (!given || ceiling == null || !draft.cell) return [];
		return draft.cell.endsWith('.aim')
			? lowerAim(given, draft.cell)
			: insideWindow(given, ceiling, draft.cell);
	}
};

function asked({ phase, bottle, from }: Given): Draft | null {
	const top = Math.max(phase.level?.high ?? 0, phase.aim ?? 0);
	const most = mostAllowed(bottle);
	if (most === null || top <= most + NEAR) return null;
	const above = phase.kind === 'hold' && isAboveCeiling(phase, bottle);
	return {
		date: from,
		phase: phase.id,
		cell: `phases.${phase.id}.level`,
		message: above
			? `The window of phases.${phase.id}, ${figure(phase.level?.low ?? 0, 3)} to ${levelText(bottle, top)}, lies above the ceiling of ${called(bottle)}, ${levelText(bottle, most)}.`
			: `phases.${phase.id} asks for up to ${levelText(bottle, top)}; the ceiling of ${called(bottle)} is ${levelText(bottle, most)}.`,
		because: above
			? 'No dose has an amount until it is mended: a slip of ten, or a window on another scale (chelated copper is read as total copper), may stand behind it.'
			: `Above it the medicine kills fish. Doses are cut at the ceiling, so ${levelText(bottle, top)} would never be reached.`,
		source:
			bottle.medicine.ceiling === undefined && bottle.row.ceiling
				? bottle.row.ceiling.source
				: 'the ceiling of the bottle in the plan'
	};
}

function reached(seen: Seen): Draft[] {
	return bottlesIn(seen).flatMap((bottle): Draft[] => {
		const { ceiling } = bottle;
		if (ceiling === null) return [];
		const over = servicesIn(seen)
			.flatMap(({ day, before, after }) => [
				{ day, sample: before, dried: true },
				{ day, sample: after, dried: false }
			])
			.find(({ sample }) => levelIn(sample, bottle) > ceiling + NEAR);
		if (!over) return [];
		const { netL } = seen.run.tank;
		const read = readOver(seen, bottle, ceiling, over.day);
		const dried = !read && over.dried && netL !== null && over.sample.volumeL < netL - NEAR;
		const given = dosing(seen).find((one) => one.bottle === bottle && during(over.day, one));
		return [
			{
				severity: dried ? 'caution' : 'stop',
				date: over.day,
				phase: given?.phase.id ?? null,
				cell: given ? `phases.${given.phase.id}.aim` : `medicines.${bottle.id}.ceiling`,
				message: read
					? `The reading of ${dayAt(seen, read.atMs)} puts ${called(bottle)} at ${levelText(bottle, read.value)}, over its ceiling of ${levelText(bottle, ceiling)}.`
					: `${bottle.row.name} reaches ${levelText(bottle, levelIn(over.sample, bottle))} on ${over.day}, over its ceiling of ${levelText(bottle, ceiling)}.`,
				because: read
					? `The plan goes on from that reading. Read again before anything else: ${bottle.measuredAs === 'Cu' ? 'a slip of ten, or a kit on the scale of chelated copper' : 'a slip of ten, or another unit'}, may stand behind it. If it is true, change water and give nothing to make up for it.`
					: dried
						? `Evaporation leaves ${figure(over.sample.volumeL, 1)} of ${figure(netL, 1)} L, and the medicine stays behind: aim lower, or have it topped off with fresh water in between.`
						: 'Change water at once and give nothing to make up for it; test again.',
				source: bottle.row.ceiling?.source
			}
		];
	});
}

/** The latest reading up to that day, where it is over the ceiling itself. */
function readOver(seen: Seen, bottle: Bottle, ceiling: number, day: string) {
	const last = logOf(seen).findLast(
		(entry) =>
			entry.kind === 'reading' &&
			(entry.what === bottle.measuredAs || entry.what === bottle.id) &&
			dayAt(seen, entry.atMs) <= day
	);
	return last?.kind === 'reading' && last.value > ceiling + NEAR ? last : null;
}

/** A tenth of the window lower each time, down to just above the floor. */
function lowerAim({ phase, bottle }: Given, cell: string) {
	const levels = holdLevels(phase, bottle);
	if (!levels) return [];
	const width = levels.ceiling - levels.floor;
	return [0.1, 0.2, 0.3, 0.4]
		.map((share) => levels.aim - share * width)
		.filter((aim) => aim > levels.floor + 0.05 * width)
		.map((aim) => ({ title: `Aim at ${levelText(bottle, aim)}`, cells: { [cell]: levelText(bottle, aim) } }));
}

function insideWindow({ phase, bottle }: Given, ceiling: number, cell: string) {
	const floor =
		bottle.window && phase.kind === 'hold' && bottle.window.low < ceiling
			? `${figure(bottle.window.low, 3)}-`
			: '';
	const level = `${floor}${levelText(bottle, ceiling)}`;
	return [{ title: `Write ${level}`, cells: { [cell]: level, [`phases.${phase.id}.aim`]: null } }];
}

/** A rise that one service should not make; what a change of the same service took out does not count as one. */
export const raiseTooLarge: Check = {
	rule: 'raise-too-large',
	severity: 'caution',
	appliesTo: 'task',
	about: 'a service that raises a medicine by more than fish should meet at once',
	source: unsourced.CP,
	find(seen) {
		const doses = seen.plan.tasks.flatMap((task) => {
			const bottle = task.kind === 'dose' ? bottleOf(seen, task.medicine) : null;
			const most = bottle?.row.raisePerService;
			return bottle && most ? [{ task, bottle, most }] : [];
		});
		const steep = servicesIn(seen).flatMap(({ day, before, after }) =>
			doses.flatMap(({ task, bottle, most }) => {
				if (task.at !== before.at) return [];
				const raised = levelIn(after, bottle) - levelIn(before, bottle);
				return raised > most.value + NEAR ? [{ day, task, bottle, most, raised }] : [];
			})
		);
		return firstPer(steep, ({ task }) => task.phase).map(({ day, task, bottle, most, raised }) => ({
			date: day,
			phase: task.phase,
			cell: `phases.${task.phase}.${phaseOf(seen, task.phase)?.kind === 'hold' ? 'repeat' : 'level'}`,
			task: task.id,
			message: `${task.text} raises ${called(bottle)} by ${levelText(bottle, raised)} in one service; ${levelText(bottle, most.value)} is the most.`,
			because: 'Gills need time to follow: rise in more steps.',
			source: most.source
		}));
	},
	repairs(draft, seen) {
		const steps = phaseOf(seen, draft.phase)?.rampDays ?? 1;
		return [steps + 1, steps + 2, steps + 4].map((days) => ({
			title: `Rise over ${days} days`,
			cells: { [`phases.${draft.phase}.repeat`]: `ramp ${days} d` }
		}));
	}
};
