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
	repairs({ phase }, { run, plan }) {
		const goes = plan.tasks.find(({ kind }) => kind === 'release')?.phase;
		const [release, row] = [goes, phase].map((id) => run.phases.find((one) => one.id === id));
		if (!release?.starts || !row?.starts || !('after' in release.starts)) return [];
		const { after, plusDays } = release.starts;
		// a row that waits for the release itself takes its place: they cannot wait for each other
		const waits = 'after' in row.starts && row.starts.after === release.id;
		const place = `after ${after}${plusDays > 0 ? ` + ${plusDays} d` : ''}`;
		return [
			{
				title: `Begin phases.${release.id} after phases.${row.id}`,
				cells: {
					...(waits ? { [`phases.${row.id}.starts`]: place } : {}),
					[`phases.${release.id}.starts`]: `after ${row.id}`
				}
			}
		];
	}
};
