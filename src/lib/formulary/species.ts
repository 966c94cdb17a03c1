import { cite } from './citations.ts';
import { medicines } from './medicines.ts';
import type { GroupRow, Mark, Sourced } from './row.ts';
import { judged, practice, published, remembered, unsourced } from './sourced.ts';
import type { Active, Group } from './vocabulary.ts';

const bonyLowest = practice(12, '12 of 13 marine species lived more than 2 weeks at 10 ppt (Wu & Woo 1983)');

const bony = {
	elasmobranch: false,
	scaleless: false,
	needsLid: false,
	sleepsBuried: false,
	fights: false,
	lowestSalinityPpt: bonyLowest,
	notes: []
} as const satisfies Partial<GroupRow>;

const cartilage = {
	elasmobranch: true,
	scaleless: true,
	needsLid: false,
	sleepsBuried: false,
	fights: false,
	lowestSalinityPpt: null
} as const satisfies Partial<GroupRow>;

const noSkinArmour = remembered('No common scales: medicines reach the skin sooner.');
const softFeeder = practice('Often refuses dead food at first; do not start copper before it eats.');

/** What a group of fish needs and bears. Traits are from memory; `other` knows nothing and bears nothing. */
export const groupRows: Readonly<Record<Group, GroupRow>> = {
	angelfish: {
		...bony,
		group: 'angelfish',
		name: 'Angelfish',
		fights: true,
		notes: [practice('One large angelfish to a tank.')]
	},
	'dwarf-angelfish': {
		...bony,
		group: 'dwarf-angelfish',
		name: 'Dwarf angelfish',
		fights: true,
		notes: [
			judged('Several in one tank fight: ask whether they are a pair or a harem.'),
			remembered('Feels copper early.')
		]
	},
	anthias: {
		...bony,
		group: 'anthias',
		name: 'Anthias',
		notes: [practice('Feed several times a day; that is ammonia too.')]
	},
	batfish: {
		...bony,
		group: 'batfish',
		name: 'Batfish',
		notes: [remembered('Grows fast and needs height.')]
	},
	blenny: {
		...bony,
		group: 'blenny',
		name: 'Blenny',
		scaleless: true,
		needsLid: true,
		notes: [noSkinArmour]
	},
	boxfish: {
		...bony,
		group: 'boxfish',
		name: 'Boxfish and cowfish',
		scaleless: true,
		notes: [
			remembered('Gives off poison when frightened or dying; keep alone, change water at once after a death.')
		]
	},
	butterflyfish: { ...bony, group: 'butterflyfish', name: 'Butterflyfish', notes: [softFeeder] },
	cardinalfish: {
		...bony,
		group: 'cardinalfish',
		name: 'Cardinalfish',
		notes: [remembered('A male with a full mouth is brooding, not sick; he will not eat.')]
	},
	clownfish: {
		...bony,
		group: 'clownfish',
		name: 'Clownfish',
		notes: [practice('A whitish haze on clownfish is first of all brooklynella.')]
	},
	damselfish: { ...bony, group: 'damselfish', name: 'Damselfish', fights: true },
	dartfish: {
		...bony,
		group: 'dartfish',
		name: 'Dartfish',
		needsLid: true,
		notes: [remembered('Jumps at any fright; dim light.')]
	},
	dottyback: { ...bony, group: 'dottyback', name: 'Dottyback', fights: true },
	dragonet: {
		...bony,
		group: 'dragonet',
		name: 'Dragonet',
		scaleless: true,
		sleepsBuried: true,
		notes: [noSkinArmour, remembered('Its slime hides early signs; it eats small living food all day.')]
	},
	eel: {
		...bony,
		group: 'eel',
		name: 'Eel',
		scaleless: true,
		needsLid: true,
		notes: [noSkinArmour, remembered('Weight the lid.')]
	},
	frogfish: {
		...bony,
		group: 'frogfish',
		name: 'Frogfish',
		scaleless: true,
		notes: [noSkinArmour, remembered('Swallows tank mates of its own size.')]
	},
	goby: { ...bony, group: 'goby', name: 'Goby', needsLid: true },
	grouper: { ...bony, group: 'grouper', name: 'Grouper' },
	hawkfish: { ...bony, group: 'hawkfish', name: 'Hawkfish', needsLid: true },
	jawfish: {
		...bony,
		group: 'jawfish',
		name: 'Jawfish',
		needsLid: true,
		sleepsBuried: true,
		notes: [practice("A tub of sand or rubble to dig in, outside the filter's way.")]
	},
	lionfish: {
		...bony,
		group: 'lionfish',
		name: 'Lionfish and scorpionfish',
		scaleless: true,
		notes: [remembered('Spines sting people badly: net with care, hot water on a sting, see a doctor.')]
	},
	pipefish: {
		...bony,
		group: 'pipefish',
		name: 'Pipefish',
		scaleless: true,
		lowestSalinityPpt: remembered(15),
		notes: [noSkinArmour, softFeeder]
	},
	puffer: {
		...bony,
		group: 'puffer',
		name: 'Puffer',
		scaleless: true,
		notes: [noSkinArmour, remembered('Never lift it into air.')]
	},
	ray: {
		...cartilage,
		group: 'ray',
		name: 'Ray',
		sleepsBuried: true,
		notes: [
			published('Many rays and sharks die of copper.', cite.copperTexts),
			remembered('A sting harms people badly.')
		]
	},
	rabbitfish: { ...bony, group: 'rabbitfish', name: 'Rabbitfish', notes: [remembered('Fin spines sting.')] },
	seahorse: {
		...bony,
		group: 'seahorse',
		name: 'Seahorse',
		scaleless: true,
		lowestSalinityPpt: remembered(15),
		notes: [noSkinArmour, softFeeder]
	},
	shark: {
		...cartilage,
		group: 'shark',
		name: 'Shark',
		notes: [published('Many sharks and rays die of copper.', cite.copperTexts)]
	},
	tang: {
		...bony,
		group: 'tang',
		name: 'Tang',
		fights: true,
		notes: [remembered('The blade at the tail cuts nets and hands.'), practice('First to show white spots.')]
	},
	triggerfish: {
		...bony,
		group: 'triggerfish',
		name: 'Triggerfish',
		fights: true,
		notes: [remembered('Bites cables and tubes.')]
	},
	wrasse: {
		...bony,
		group: 'wrasse',
		name: 'Wrasse',
		needsLid: true,
		sleepsBuried: true,
		notes: [practice('A small tub of sand for those that sleep buried.')]
	},
	other: {
		...bony,
		group: 'other',
		name: 'Another fish',
		lowestSalinityPpt: null,
		notes: [judged('Nothing is known of this group here. Ask a veterinarian or someone who has kept it.')]
	}
};

export interface Tolerance {
	verdict: 'ok' | 'sensitive' | 'never' | 'unknown';
	mark: Mark;
	source: string;
	because: string;
	/** lower aim for sensitive groups, in the medicine's unit */
	aim: number | null;
	/** slower rise for sensitive groups */
	rampDays: number | null;
}

/** Medicines on record as borne by sharks and rays. */
const borneByElasmobranchs: Partial<Record<Active, Sourced<true>>> = {
	praziquantel: published(true, cite.hadfield2011)
};

/** Whether a group bears a medicine at its usual level. `other`, fish or medicine, is always unknown. */
export function tolerates(group: Group, active: Active): Tolerance {
	const fish = groupRows[group];
	const row = medicines[active];
	if (group === 'other' || active === 'other') {
		const what = group === 'other' ? 'this fish' : 'this medicine';
		return plainly('unknown', 'J', unsourced.J, `nothing is known of ${what}`);
	}
	if (row.notFor.value.includes(group)) {
		return plainly(
			'never',
			row.notFor.mark,
			row.notFor.source,
			row.notFor.note ?? `${fish.name}: not with this medicine`
		);
	}
	if (row.sensitive.value.groups.includes(group)) {
		const { aim, rampDays } = row.sensitive.value;
		const because = `${fish.name}: less and slower, watched closely`;
		return {
			verdict: 'sensitive',
			mark: row.sensitive.mark,
			source: row.sensitive.source,
			because,
			aim,
			rampDays
		};
	}
	if (!fish.elasmobranch) return plainly('ok', 'M', unsourced.M, 'no harm at the usual level is known to us');
	const borne = borneByElasmobranchs[active];
	if (borne) return plainly('ok', borne.mark, borne.source, 'given to sharks and rays on arrival');
	return plainly('unknown', 'J', unsourced.J, 'sharks and rays: no word on this medicine');
}

const plainly = (verdict: Tolerance['verdict'], mark: Mark, source: string, because: string): Tolerance => ({
	verdict,
	mark,
	source,
	because,
	aim: null,
	rampDays: null
});
