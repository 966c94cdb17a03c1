import { unsourced } from '../../formulary/index.ts';
import { called, dosing, type Check, type Draft } from './check.ts';

/** UV on what light breaks down, ozone on anything: nobody is known to have said how much it takes. */
export const equipmentUnknown: Check = {
	rule: 'equipment-unknown',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'UV with a medicine that light breaks down, or ozone with any, where nothing is on record',
	source: unsourced.J,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from }): Draft[] => {
			const { row } = bottle;
			const known: readonly string[] = row.removedBy.value;
			const light = row.lightSensitive.value || known.includes('light');
			return (['uv', 'ozone'] as const)
				.filter((what) => seen.run.tank[what] && !known.includes(what) && (what === 'ozone' || light))
				.map((what) => ({
					date: from,
					phase: phase.id,
					cell: `tank.${what}`,
					message: `${what === 'uv' ? 'UV' : 'Ozone'} runs in the tank while ${called(bottle)} is given: what it does to it is not known here.`,
					because:
						what === 'uv'
							? 'Light breaks this medicine down, and UV is light at its strongest: keep it off, or the level falls faster than any forecast says.'
							: 'Ozone oxidises much of what it meets, and what comes of it is not on record: keep it off for the course.'
				}));
		}),
	repairs: ({ cell }) =>
		cell
			? [
					{
						title: `Keep the ${cell.endsWith('uv') ? 'UV' : 'ozone'} off for the course`,
						cells: { [cell]: false }
					}
				]
			: []
};
