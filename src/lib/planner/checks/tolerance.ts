import { groupRows, tolerates } from '../../formulary/index.ts';
import { CREDIT_PPT } from '../phases/low-salinity.ts';
import { figure } from '../words.ts';
import { bottleOf, dosing, judgment, practice, type Check, type Draft, type Seen } from './check.ts';

/** Medicines that reach the fish: in the water, in a bath, in the food. */
const given = (seen: Seen) => [
	...dosing(seen).map(({ phase, bottle }) => ({ phase, bottle })),
	...seen.run.phases.flatMap((phase) => {
		const bottle = bottleOf(seen, phase.medicine);
		return bottle && (phase.kind === 'dip' || phase.kind === 'feed') ? [{ phase, bottle }] : [];
	})
];

/** A fish that does not bear the medicine, or bears less of it. */
export const notTolerated: Check = {
	rule: 'not-tolerated',
	severity: 'stop',
	about: 'a species group that does not bear the medicine',
	source: 'the shelf’s table of groups',
	find: (seen) =>
		given(seen).flatMap(({ phase, bottle }) =>
			seen.run.lots.flatMap((lot): Draft[] => {
				const { verdict, because, source, aim } = tolerates(lot.group, bottle.row.active);
				if (verdict !== 'never' && verdict !== 'sensitive') return [];
				const strong = verdict === 'never' || aim === null || (phase.aim ?? bottle.aim ?? 0) > aim;
				if (!strong) return [];
				const name = lot.what || groupRows[lot.group].name;
				return [
					{
						severity: verdict === 'never' ? 'stop' : 'caution',
						date: null,
						phase: phase.id,
						cell: verdict === 'never' ? `phases.${phase.id}.medicine` : `phases.${phase.id}.aim`,
						message:
							verdict === 'never'
								? `${name} must not meet ${bottle.row.name.toLowerCase()}.`
								: `${name} takes less ${bottle.row.name.toLowerCase()}, raised slower${aim === null ? '' : `: aim at ${figure(aim, 3)} ${bottle.row.unit}`}.`,
						because: `${because}.`.replace(/\.\.$/, '.'),
						source
					}
				];
			})
		),
	repairs(draft, seen) {
		const phase = seen.run.phases.find(({ id }) => id === draft.phase);
		const bottle = bottleOf(seen, phase?.medicine);
		if (!phase || !bottle || draft.cell?.endsWith('.medicine')) return [];
		const bounds = seen.run.lots
			.map(({ group }) => tolerates(group, bottle.row.active))
			.filter(({ verdict }) => verdict === 'sensitive');
		const aim = Math.min(...bounds.map((bound) => bound.aim ?? Infinity));
		const ramp = Math.max(...bounds.map(({ rampDays }) => rampDays ?? 1));
		return Number.isFinite(aim)
			? [
					{
						title: `Aim at ${figure(aim, 3)} ${bottle.row.unit} and rise over ${ramp} services`,
						cells: {
							[`phases.${phase.id}.aim`]: `${figure(aim, 3)} ${bottle.row.unit}`,
							[`phases.${phase.id}.repeat`]: `ramp ${ramp} d`
						}
					}
				]
			: [];
	}
};

/** Nothing is known of the fish or the medicine; said once per run. */
export const toleranceUnknown: Check = {
	rule: 'tolerance-unknown',
	severity: 'note',
	about: 'fish or medicines of which nothing is known',
	source: judgment,
	find(seen) {
		const unknown = given(seen).flatMap(({ phase, bottle }) =>
			seen.run.lots
				.filter(({ group }) => tolerates(group, bottle.row.active).verdict === 'unknown')
				.map((lot) => ({ phase, bottle, lot }))
		);
		const [first] = unknown;
		if (!first) return [];
		return [
			{
				date: null,
				phase: null,
				cell:
					first.lot.group === 'other' ? `lots.${first.lot.id}.group` : `medicines.${first.bottle.id}.active`,
				message: `Nothing is known of how ${first.lot.what || 'this fish'} bears ${first.bottle.row.name.toLowerCase()}.`,
				because: 'Ask a vet, begin with one fish, and watch it.'
			}
		];
	}
};

/** Low salinity is for bony fish that bear it, and copper bites harder in it. */
export const salinityNotTolerated: Check = {
	rule: 'salinity-not-tolerated',
	severity: 'stop',
	about: 'a low-salinity course for fish that do not bear it, or too low or too high to work',
	source: practice,
	find: (seen) =>
		seen.run.phases.flatMap((phase): Draft[] => {
			const low = phase.kind === 'low-salinity' ? phase.level : null;
			if (!low) return [];
			const cell = `phases.${phase.id}.level`;
			const fish = seen.run.lots.flatMap((lot): Draft[] => {
				const least = groupRows[lot.group].lowestSalinityPpt;
				if (lot.group === 'other' || (least && low.low >= least.value)) return [];
				return [
					{
						date: null,
						phase: phase.id,
						cell,
						message: `${lot.what || groupRows[lot.group].name} does not bear ${figure(low.low, 1)} ppt.`,
						because: least
							? `${least.value} ppt is the least on record for the group.`
							: 'The group is not for low salinity at all.',
						source: least?.source
					}
				];
			});
			if (low.low < 10)
				return [
					...fish,
					{
						date: null,
						phase: phase.id,
						cell,
						message: `${figure(low.low, 1)} ppt is under 10 ppt.`,
						because:
							'Most marine fish live two weeks at 10 ppt; under it fewer and fewer do (Wu & Woo 1983).',
						source: 'Wu & Woo 1983, Aquaculture 32:175-181'
					}
				];
			if (low.high > CREDIT_PPT)
				return [
					...fish,
					{
						severity: 'caution',
						date: null,
						phase: phase.id,
						cell,
						message: `${figure(low.high, 1)} ppt is over ${CREDIT_PPT} ppt: no day of it is credited.`,
						because: 'Cysts burst at 16 ppt and under; hold 12 to 14.'
					}
				];
			return fish;
		}),
	repairs: (draft) =>
		draft.message.includes(' ppt is ')
			? [{ title: 'Hold 14 ppt', cells: { [draft.cell ?? '']: '14 ppt' } }]
			: []
};

/** What else lives in the tank. */
export const othersPresent: Check = {
	rule: 'others-present',
	severity: 'stop',
	about: 'invertebrates, live rock or plants in water that is dosed',
	source: practice,
	find(seen) {
		const others = seen.run.tank.holds.filter((what) => what !== 'fish');
		const harmful = dosing(seen).find(({ bottle }) => bottle.row.harmsInvertebrates.value);
		if (others.length === 0 || !harmful) return [];
		return [
			{
				date: harmful.from,
				phase: harmful.phase.id,
				cell: 'tank.holds',
				message: `${others.join(', ')} in the tank: ${harmful.bottle.row.name.toLowerCase()} kills or poisons them.`,
				because: 'Dead animals foul the water and rock gives the medicine back for months.',
				source: harmful.bottle.row.harmsInvertebrates.source
			}
		];
	},
	repairs: () => [{ title: 'Keep fish only in this tank', cells: { 'tank.holds': ['fish'] } }]
};
