import { holdLevels } from '../phases/hold.ts';
import { figure, levelText } from '../words.ts';
import { bottleOf, dosing, firstPer, judgment, phaseOf, type Check } from './check.ts';

const NEAR = 1e-9;

/** No level may pass a ceiling, whether the sheet asks for it or evaporation lifts it there. */
export const aboveCeiling: Check = {
	rule: 'above-ceiling',
	severity: 'stop',
	about: 'a level over its ceiling, asked for or reached',
	source: 'the shelf’s ceiling, or the bottle’s own',
	find(seen) {
		const asked = dosing(seen).flatMap(({ phase, bottle, from }) => {
			const top = phase.level?.high ?? phase.aim ?? 0;
			if (bottle.ceiling === null || top <= bottle.ceiling + NEAR) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					message: `${phase.id} asks for up to ${levelText(bottle, top)}; the ceiling of ${bottle.row.name.toLowerCase()} is ${levelText(bottle, bottle.ceiling)}.`,
					because: 'Above it the medicine kills fish; doses are cut at the ceiling.',
					source: bottle.row.ceiling?.source
				}
			];
		});
		const reached = (seen.walked?.walk.bottles ?? []).flatMap((bottle) => {
			const { ceiling } = bottle;
			const over =
				ceiling === null
					? undefined
					: seen.plan.levels.find(
							({ medicinesMgPerL }) => (medicinesMgPerL[bottle.id] ?? 0) > ceiling + NEAR
						);
			if (!over || ceiling === null) return [];
			return [
				{
					date: over.date,
					phase: seen.run.phases.find(({ medicine }) => medicine === bottle.id)?.id ?? null,
					message: `${bottle.row.name} reaches ${levelText(bottle, over.medicinesMgPerL[bottle.id] ?? 0)} on ${over.date}, over its ceiling of ${levelText(bottle, ceiling)}.`,
					because: `The tank holds ${figure(over.volumeL, 1)} L then; water that evaporates leaves the medicine behind. Change water, give none.`,
					source: bottle.row.ceiling?.source
				}
			];
		});
		return [...asked, ...reached];
	},
	repairs(draft, seen) {
		const bottle = bottleOf(seen, phaseOf(seen, draft.phase)?.medicine);
		if (!draft.cell || bottle?.ceiling == null) return [];
		const { window, ceiling } = bottle;
		const floor = window && window.low < ceiling ? `${figure(window.low, 3)}-` : '';
		return [
			{
				title: `Keep inside ${floor}${levelText(bottle, ceiling)}`,
				cells: { [draft.cell]: `${floor}${levelText(bottle, ceiling)}`, [`phases.${draft.phase}.aim`]: null }
			}
		];
	}
};

/** A rise that one service should not make. */
export const raiseTooLarge: Check = {
	rule: 'raise-too-large',
	severity: 'caution',
	about: 'a dose that raises more than one service may',
	source: judgment,
	find(seen) {
		const large = seen.plan.tasks.flatMap((task) => {
			const bottle = bottleOf(seen, task.medicine);
			const most = bottle?.row.raisePerService;
			const raised = task.raises ? task.raises.to - task.raises.from : 0;
			if (!bottle || !most || task.kind !== 'dose' || raised <= most.value + NEAR) return [];
			return [{ task, bottle, most, raised }];
		});
		return firstPer(large, ({ task }) => task.phase).map(({ task, bottle, most, raised }) => ({
			date: task.date,
			phase: task.phase,
			task: task.id,
			message: `${task.text} raises by ${levelText(bottle, raised)} at once; ${levelText(bottle, most.value)} is the most for one service.`,
			because: 'Gills need time: rise in more steps.',
			source: most.source
		}));
	},
	repairs: ({ phase }) =>
		[3, 4, 5].map((days) => ({
			title: `Rise over ${days} services`,
			cells: { [`phases.${phase}.repeat`]: `ramp ${days} d` }
		}))
};

/** A measuring tool or a kit too coarse for the window it serves. */
export const stepTooCoarse: Check = {
	rule: 'step-too-coarse',
	severity: 'note',
	about: 'a measuring step worth more than half the window',
	source: judgment,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle }) => {
			const levels = phase.kind === 'hold' ? holdLevels(phase, bottle) : null;
			const { measure, strength } = bottle.medicine;
			const { netL } = seen.run.tank;
			if (!levels || measure === null || !strength || netL === null) return [];
			const active =
				strength.form === 'liquid'
					? measure * strength.mgPerMl
					: strength.form === 'powder'
						? measure * strength.gPerG
						: measure * 1000 * strength.mlPerMl;
			const step = active / netL;
			if (step <= (levels.ceiling - levels.floor) / 2 + NEAR) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `medicines.${bottle.id}.measure`,
					message: `One step of the measuring tool is ${levelText(bottle, step)} in this tank, more than half the window.`,
					because: 'Doses cannot be placed inside the window: dilute the stock or use a finer syringe.'
				}
			];
		}),
	repairs: (draft, { run }) =>
		run.medicines.flatMap(({ id, measure, strength }) =>
			draft.cell === `medicines.${id}.measure` && measure !== null
				? [
						{
							title: 'Measure ten times finer',
							cells: {
								[`medicines.${id}.measure`]: `${figure(measure / 10, 4)} ${strength?.form === 'powder' ? 'mg' : 'mL'}`
							}
						}
					]
				: []
		)
};
