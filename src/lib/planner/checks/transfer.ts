import { methods, unsourced } from '../../formulary/index.ts';
import { figure } from '../words.ts';
import { ahead, MS_PER_HOUR, phaseOf, type Check, type Draft } from './check.ts';
import { pairs } from './jobs-apart.ts';

/** Cysts open from day 3: a later move carries the disease along. */
export const transferGap: Check = {
	rule: 'transfer-gap',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'moves further apart than 72 hours and six of grace',
	source: 'Colorni 1985: moves 3 days apart; six hours of grace: judgment, no source',
	find: (seen) =>
		seen.run.phases
			.filter(({ kind }) => kind === 'transfer')
			.flatMap(({ id }): Draft[] => {
				const moves = seen.plan.tasks.filter(
					(task) => task.phase === id && task.kind === 'transfer' && task.state !== 'missed'
				);
				const { hoursApart, graceHours, restartHours } = methods.transfer;
				const most = (hoursApart?.value ?? 0) + (graceHours?.value ?? 0);
				for (const [before, move] of pairs(seen, id, moves)) {
					const hours = (Date.parse(move.at) - Date.parse(before.at)) / MS_PER_HOUR;
					if (hours <= most) continue;
					const restart = restartHours && hours >= restartHours.value;
					return [
						{
							date: move.date,
							phase: id,
							cell: `phases.${id}.repeat`,
							message: `The move of ${move.date} comes ${figure(hours, 0)} h after the one before; ${most} h is the most.`,
							because: `Cysts open from day 3 on: what hatched has found the fish again${restart ? `, and after ${restartHours.value} h the series starts again` : ''}.`
						}
					];
				}
				return [];
			}),
	repairs: (draft) => [{ title: 'Move every 72 hours', cells: { [draft.cell ?? '']: 'every 3 d' } }]
};

/** A move needs a place to move to. */
export const spareMissing: Check = {
	rule: 'spare-missing',
	severity: 'note',
	appliesTo: 'phase',
	about: 'a move without a second tank in the plan',
	source: unsourced.CP,
	find(seen) {
		const move = ahead(seen).find(({ kind }) => kind === 'transfer');
		if (seen.run.spare || !move || phaseOf(seen, move.phase)?.kind !== 'transfer') return [];
		return [
			{
				date: move.date,
				phase: move.phase,
				cell: 'spare',
				message: `The fish move on ${move.date}, and the plan names no second tank.`,
				because:
					'Two suffice if each is stripped, disinfected and dried between moves; its own volume counts for what is dosed there.'
			}
		];
	},
	repairs: () => [{ title: 'Add a second tank', cells: { spare: { name: 'Second tank' } } }]
};
