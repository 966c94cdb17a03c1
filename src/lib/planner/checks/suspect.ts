import { methods, parasites, suspects, unsourced, type Suspect } from '../../formulary/index.ts';
import { giving, logOf, sick, type Check, type Seen } from './check.ts';

/** Signs that speak more quietly than this fit too many things to name one. */
const HEARD = 2;

/** What each lot's signs, at the door and since, speak for loudest. */
function suspected(seen: Seen): Suspect[] {
	const loudest = seen.run.lots.map((lot) => {
		const logged = logOf(seen).flatMap((entry) =>
			entry.kind === 'observation' && (entry.lot === undefined || entry.lot === lot.id)
				? sick(entry.signs)
				: []
		);
		const all = suspects([...new Set([...lot.signs, ...logged])], lot.group);
		return all.filter(({ weight }) => weight >= HEARD && weight === all[0]?.weight);
	});
	return loudest.find((all) => all.length > 0 && !all.some((one) => treated(seen, one))) ?? [];
}

/** What the run gives or does that is on record as reaching it. */
function treated(seen: Seen, { target }: Suspect): boolean {
	if (giving(seen).some(({ bottle }) => bottle.row.treats[target])) return true;
	return seen.run.phases.some(
		({ kind }) => (kind === 'low-salinity' || kind === 'transfer') && methods[kind].treats[target]
	);
}

/** A course that does not reach what the signs point to. Of several equal suspects one that is treated is enough. */
export const courseMissesSuspect: Check = {
	rule: 'course-misses-suspect',
	severity: 'caution',
	appliesTo: 'fish',
	about: 'signs that point to something nothing in the run treats',
	source: unsourced.J,
	find(seen) {
		const [suspect] = suspected(seen);
		if (!suspect || seen.run.phases.length === 0) return [];
		const miss = giving(seen).flatMap(({ phase, bottle }) => {
			const why = bottle.row.doesNotTreat[suspect.target];
			return why ? [{ phase, name: bottle.row.name, why }] : [];
		})[0];
		return [
			{
				date: null,
				phase: miss?.phase.id ?? null,
				cell: miss ? `phases.${miss.phase.id}.medicine` : 'phases',
				message: `The signs point to ${parasites[suspect.target].name}, which nothing in this run treats.`,
				because: miss
					? `${miss.name}: ${miss.why.value} Signs: ${suspect.because}.`
					: `Signs: ${suspect.because}. Have it confirmed, then choose a course.`,
				...(miss ? { source: miss.why.source } : {})
			}
		];
	}
};
