import { sharing } from '../../formulary/index.ts';
import { dayNumber, dayText } from '../../run/index.ts';
import { dosing, type Candidate, type Check, type Draft, type Seen } from './check.ts';

/** Two medicines in the same water, by phases that overlap or by what the one before has left. */
export const sharedWater: Check = {
	rule: 'shared-water',
	severity: 'stop',
	about: 'medicines that may not meet, also through what is left from the phase before',
	source: 'the shelf’s table of pairs',
	find(seen) {
		const phases = dosing(seen);
		return phases.flatMap((later) =>
			phases.flatMap((earlier): Draft[] => {
				if (earlier === later || earlier.bottle.index === later.bottle.index || earlier.from > later.from)
					return [];
				if (earlier.from === later.from && earlier.phase.id > later.phase.id) return [];
				const left = leftAt(seen, earlier.bottle.id, later.from);
				const overlap = earlier.to === null || earlier.to >= later.from;
				if (!overlap && left <= earlier.bottle.clear) return [];
				const { verdict, because, source } = sharing(earlier.bottle.row.active, later.bottle.row.active);
				if (verdict === 'may') return [];
				const names = `${earlier.bottle.row.name} and ${later.bottle.row.name.toLowerCase()}`;
				return [
					{
						severity: verdict === 'never' ? 'stop' : 'caution',
						date: later.from,
						phase: later.phase.id,
						cell: `phases.${later.phase.id}.starts`,
						message: overlap
							? `${names} would share water from ${later.from} on.`
							: `${Number(left.toPrecision(2))} ${earlier.bottle.row.unit} of ${earlier.bottle.row.name.toLowerCase()} would still be in the water when ${later.bottle.row.name.toLowerCase()} begins.`,
						because:
							verdict === 'never'
								? `They may not meet: ${because}.`
								: `Nobody is known to have said that they may: ${because}. A vet who knows both can settle it.`,
						source
					}
				];
			})
		);
	},
	repairs(draft, seen): Candidate[] {
		const later = seen.run.phases.find(({ id }) => id === draft.phase);
		const wash = seen.run.phases.find((phase) => phase.kind === 'washout' && phase.id !== draft.phase);
		if (!later) return [];
		const ends = seen.plan.phases.filter(
			({ id, to }) => id !== later.id && to !== null && dosing(seen).some(({ phase }) => phase.id === id)
		);
		const last = ends.map(({ to }) => dayNumber(to ?? '')).reduce((a, b) => Math.max(a, b), 0);
		return [
			...(wash && wash.starts && 'after' in wash.starts && wash.starts.after !== later.id
				? [
						{
							title: `Begin ${later.id} after the wash-out ${wash.id}`,
							cells: { [`phases.${later.id}.starts`]: `after ${wash.id}` }
						}
					]
				: []),
			...(last > 0
				? [
						{
							title: `Begin ${later.id} when the other course is over`,
							cells: { [`phases.${later.id}.starts`]: `on ${dayText(last + 1)}` }
						}
					]
				: [])
		];
	}
};

/** Level before the first service of a day, judged at least loss. */
function leftAt({ plan }: Seen, medicine: string, day: string): number {
	const at = plan.tasks.find(({ date }) => date === day)?.at ?? `${day}T00:00:00Z`;
	const sample = plan.levels.findLast(({ at: when, when: which }) => which === 'before' && when <= at);
	return sample?.band?.medicinesMgPerL?.[medicine]?.high ?? sample?.medicinesMgPerL[medicine] ?? 0;
}
