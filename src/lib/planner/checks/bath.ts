import { dipMinutes, strongestBath } from '../phases/dip.ts';
import { figure, levelText } from '../words.ts';
import { called, giving, NEAR, type Check, type Given, type Seen } from './check.ts';

const dips = (seen: Seen) =>
	giving(seen).flatMap((given) =>
		given.phase.kind === 'dip' && given.bottle.row.bath ? [{ ...given, bath: given.bottle.row.bath }] : []
	);

/** The job it stands at: the first dip still to come, else the first of all. */
function dipOf(seen: Seen, phase: string): { task?: string } {
	const all = seen.plan.tasks.filter((task) => task.kind === 'dip' && task.phase === phase);
	const task = all.find(({ at }) => Date.parse(at) >= seen.nowMs) ?? all[0];
	return task ? { task: task.id } : {};
}

/** A short bath stronger than fish live through. */
export const bathTooStrong: Check = {
	rule: 'bath-too-strong',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'a dip over the ceiling of a short bath at its temperature',
	source: 'the limits of a short bath on the shelf',
	find: (seen) =>
		dips(seen).flatMap(({ phase, bottle, bath, from }) => {
			const most = strongestBath(bath, seen.run.tank.temperatureC);
			const level = (phase.level ?? bottle.medicine.level)?.high ?? 0;
			if (!most || level <= most.level + NEAR) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					...dipOf(seen, phase.id),
					message: `The dip asks for ${levelText(bottle, level)} of ${called(bottle)}; ${levelText(bottle, most.level)} is the most${most.why}.`,
					because: `It is ${figure(level / most.level, 1)} times what fish are on record to bear for minutes.`,
					source: most.source
				}
			];
		}),
	repairs: (draft, seen) =>
		ofPhase(dips(seen), draft.phase).flatMap(({ bottle, bath }) => {
			const most = strongestBath(bath, seen.run.tank.temperatureC);
			return most && draft.cell
				? [
						{
							title: `Dip in ${levelText(bottle, most.level)}`,
							cells: { [draft.cell]: levelText(bottle, most.level) }
						}
					]
				: [];
		})
};

/** A short bath longer than fish live through. */
export const bathTooLong: Check = {
	rule: 'bath-too-long',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'a dip longer than the longest on record',
	source: 'the limits of a short bath on the shelf',
	find: (seen) =>
		dips(seen).flatMap(({ phase, bottle, bath, from }) => {
			const minutes = dipMinutes(phase, bottle);
			const most = bath.minutes.value.high;
			if (minutes === null || minutes <= most + NEAR) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.lasts`,
					...dipOf(seen, phase.id),
					message: `The dip is to last ${figure(minutes, 1)} min; ${figure(most, 1)} min in ${called(bottle)} is the longest.`,
					because: 'The keeper stays beside it and ends it at the first distress, never later than this.',
					source: bath.minutes.source
				}
			];
		}),
	repairs: (draft, seen) =>
		ofPhase(dips(seen), draft.phase).map(({ bath }) => ({
			title: `Dip for ${figure(bath.minutes.value.high, 1)} min`,
			cells: { [draft.cell ?? '']: `${figure(bath.minutes.value.high, 1)} min` }
		}))
};

const ofPhase = <T extends Given>(all: readonly T[], id: string | null): T[] =>
	all.filter(({ phase }) => phase.id === id);
