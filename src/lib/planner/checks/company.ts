import { groupRows, unsourced } from '../../formulary/index.ts';
import { presentLots, type inhabitants } from '../../run/index.ts';
import { called, dosing, firstPer, type Check, type Draft, type Seen } from './check.ts';

type Inhabitant = (typeof inhabitants)[number];

const why: Record<Exclude<Inhabitant, 'fish'>, string> = {
	invertebrates: 'They die of it, and their bodies foul the water.',
	'live-rock':
		'What lives in it dies, and the stone takes the medicine up and gives it back for months; it also shelters parasites.',
	plants: 'They die of most medicines and rot.'
};

/** What else lives in the tank. */
export const othersPresent: Check = {
	rule: 'others-present',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'invertebrates, live rock or plants in water that is dosed or thinned',
	source: unsourced.CP,
	find(seen) {
		const harm = harmful(seen);
		const others = seen.run.tank.holds.flatMap((what) => (what === 'fish' ? [] : [what]));
		if (!harm || others.length === 0) return [];
		return others.map((what): Draft => ({
			severity: what === 'invertebrates' ? 'stop' : 'caution',
			date: harm.from,
			phase: harm.phase,
			cell: 'tank.holds',
			message: `${what.charAt(0).toUpperCase()}${what.slice(1).replace('-', ' ')} in the tank when ${harm.what} begins on ${harm.from}.`,
			because: why[what],
			source: harm.source
		}));
	},
	repairs: (draft) => [
		{ title: 'Take everything but the fish out first', cells: { [draft.cell ?? '']: ['fish'] } }
	]
};

function harmful(seen: Seen) {
	const medicine = dosing(seen).find(({ bottle }) => bottle.row.harmsInvertebrates.value);
	const low = seen.run.phases.find(({ kind }) => kind === 'low-salinity');
	const from = seen.plan.phases.find(({ id }) => id === low?.id)?.from;
	if (medicine)
		return {
			from: medicine.from,
			phase: medicine.phase.id,
			what: called(medicine.bottle),
			source: medicine.bottle.row.harmsInvertebrates.source
		};
	return low && from ? { from, phase: low.id, what: 'low salinity', source: unsourced.M } : null;
}

/** Fish that jump need a lid. */
export const lidMissing: Check = {
	rule: 'lid-missing',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'fish that jump in a tank without a lid',
	source: unsourced.CP,
	find({ run }) {
		const jumpers = firstPer(
			run.lots.filter(({ group }) => groupRows[group].needsLid),
			({ group }) => group
		);
		if (run.tank.lid === true || jumpers.length === 0) return [];
		const names = jumpers.map(({ what, group }) => what || groupRows[group].name.toLowerCase()).join(', ');
		return [
			{
				severity: run.tank.lid === false ? 'caution' : 'note',
				date: null,
				phase: null,
				cell: 'tank.lid',
				message:
					run.tank.lid === false
						? `The tank has no lid, and ${names} jump.`
						: `${names.charAt(0).toUpperCase()}${names.slice(1)} jump: nothing says that the tank has a lid.`,
				because: 'A bare tank frightens them; most are lost in the first nights.'
			}
		];
	},
	repairs: () => [{ title: 'Put a lid on', cells: { 'tank.lid': true } }]
};

/** Two may be a pair. */
const A_PAIR = 2;

/** Fish of these groups that are told to share a bare tank. */
export const fishFight: Check = {
	rule: 'fish-fight',
	severity: 'note',
	appliesTo: 'fish',
	about: 'several fish of a group that fights, in one tank',
	source: unsourced.J,
	find: ({ run }) => {
		const lots = presentLots(run);
		return firstPer(
			lots.filter(({ group }) => groupRows[group].fights),
			({ group }) => group
		).flatMap(({ id, group }) => {
			const count = lots.filter((lot) => lot.group === group).reduce((sum, lot) => sum + lot.count, 0);
			if (count <= A_PAIR) return [];
			return [
				{
					date: null,
					phase: null,
					cell: `lots.${id}.count`,
					message: `${count} fish of a group that fights (${groupRows[group].name.toLowerCase()}) share one bare tank.`,
					because:
						'Unless they are a pair or have lived together: dividers, pipes to hide in, and a look every day.'
				}
			];
		});
	}
};
