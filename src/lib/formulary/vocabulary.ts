/** The closed word lists of a plan file. Every list stands here and nowhere else. */
export const actives = [
	'copper-ionic',
	'copper-chelated',
	'praziquantel',
	'formalin',
	'formalin-malachite',
	'chloroquine',
	'metronidazole',
	'nitrofurazone',
	'kanamycin',
	'erythromycin',
	'levamisole',
	'fenbendazole',
	'methylene-blue',
	'hydrogen-peroxide',
	'acriflavine',
	'botanical-antibacterial',
	'botanical-antifungal',
	'fresh-water',
	'other'
] as const;
export const groups = [
	'angelfish',
	'dwarf-angelfish',
	'anthias',
	'batfish',
	'blenny',
	'boxfish',
	'butterflyfish',
	'cardinalfish',
	'clownfish',
	'damselfish',
	'dartfish',
	'dottyback',
	'dragonet',
	'eel',
	'frogfish',
	'goby',
	'grouper',
	'hawkfish',
	'jawfish',
	'lionfish',
	'pipefish',
	'puffer',
	'ray',
	'rabbitfish',
	'seahorse',
	'shark',
	'tang',
	'triggerfish',
	'wrasse',
	'other'
] as const;
export const targets = [
	'cryptocaryon',
	'amyloodinium',
	'brooklynella',
	'uronema',
	'neobenedenia',
	'benedenia',
	'flukes',
	'worms',
	'bacteria',
	'fungus'
] as const;
export type Active = (typeof actives)[number];
export type Group = (typeof groups)[number];
export type Target = (typeof targets)[number];
