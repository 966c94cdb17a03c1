import type { Sign } from '../run/index.ts';

/** What a keeper sees and where on the fish it shows; the words of the list, in plain English. */
export const signWords: Readonly<Record<Sign, string>> = {
	'white-spots': 'White spots, like salt grains',
	'gold-dust': 'Gold or rust dust on the skin',
	haze: 'Whitish haze or film',
	mucus: 'Too much slime',
	'black-spots': 'Black specks',
	blisters: 'Blisters',
	sore: 'Open sore or red patch',
	'ragged-fins': 'Ragged fins',
	'cloudy-eye': 'Cloudy eye',
	swollen: 'Swollen belly or eyes',
	thin: 'Thin, pinched belly',
	'fast-breathing': 'Fast breathing',
	'into-flow': 'Swims into the flow',
	piping: 'Gasps at the surface',
	'pale-gills': 'Pale gills',
	flashing: 'Rubs or darts against things',
	lethargy: 'Lies or hangs about',
	'off-feed': 'Does not eat',
	'stringy-faeces': 'White stringy faeces',
	none: 'None'
};

/** The list in the order of a look: skin, breathing, behaviour, gut. */
export const signGroups: readonly { name: string; signs: readonly Sign[] }[] = [
	{
		name: 'Skin, fins and eyes',
		signs: [
			'white-spots',
			'gold-dust',
			'haze',
			'mucus',
			'black-spots',
			'blisters',
			'sore',
			'ragged-fins',
			'cloudy-eye'
		]
	},
	{ name: 'Breathing', signs: ['fast-breathing', 'into-flow', 'piping', 'pale-gills'] },
	{ name: 'Behaviour', signs: ['flashing', 'lethargy'] },
	{ name: 'Feeding and gut', signs: ['off-feed', 'stringy-faeces', 'thin', 'swollen'] }
];

/** Signs inside a sentence. */
export const signsLine = (signs: readonly Sign[]): string =>
	signs.map((sign) => signWords[sign].charAt(0).toLowerCase() + signWords[sign].slice(1)).join('; ');
