import { unsourced } from '../../formulary/index.ts';
import type { Check } from './check.ts';

/** Work on fish that have gone. */
export const afterRelease: Check = {
	rule: 'after-release',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a row that begins once the fish have been released',
	source: unsourced.CP,
	find({ plan }) {
		const release = plan.tasks.find(({ kind }) => kind === 'release');
		if (!release) return [];
		return plan.phases.flatMap(({ id, from }) =>
			from === null || from < release.date || id === release.phase
				? []
				: [
						{
							date: from,
							phase: id,
							cell: `phases.${id}.starts`,
							message: `phases.${id} begins on ${from}, but the fish are released on ${release.date}.`,
							because:
								'Nothing is left in the tank to watch or to treat: let the release wait for it, or take the row out.'
						}
					]
		);
	},
	repairs({ phase }, { plan }) {
		const release = plan.tasks.find(({ kind }) => kind === 'release')?.phase;
		if (!release || !phase) return [];
		return [
			{
				title: `Begin phases.${release} after phases.${phase}`,
				cells: { [`phases.${release}.starts`]: `after ${phase}` }
			}
		];
	}
};
