import type { Active } from './vocabulary.ts';

/** What every screen needs of a medicine before it needs its row. */
export interface Label {
	active: Active;
	/** for people: "Ionic copper" */
	name: string;
	/** for a calendar cell: "Cu" */
	short: string;
	/** how its levels are counted: of the active ingredient, or of the whole liquid */
	unit: 'mg/L' | 'uL/L';
}

const label = <const A extends Active>(
	active: A,
	name: string,
	short: string,
	unit: Label['unit'] = 'mg/L'
): Label & { active: A } => ({ active, name, short, unit });

/** How each active ingredient is called and counted: a small table, so that a page can name a bottle without the shelf. */
export const labels = {
	'copper-ionic': label('copper-ionic', 'Ionic copper', 'Cu'),
	'copper-chelated': label('copper-chelated', 'Chelated copper', 'Cu-ch'),
	praziquantel: label('praziquantel', 'Praziquantel', 'PZQ'),
	formalin: label('formalin', 'Formalin', 'Form', 'uL/L'),
	'formalin-malachite': label('formalin-malachite', 'Formalin with malachite green', 'F+MG', 'uL/L'),
	chloroquine: label('chloroquine', 'Chloroquine phosphate', 'CQ'),
	metronidazole: label('metronidazole', 'Metronidazole', 'Metro'),
	nitrofurazone: label('nitrofurazone', 'Nitrofurazone', 'NFZ'),
	kanamycin: label('kanamycin', 'Kanamycin', 'Kana'),
	erythromycin: label('erythromycin', 'Erythromycin', 'Ery'),
	levamisole: label('levamisole', 'Levamisole', 'Leva'),
	fenbendazole: label('fenbendazole', 'Fenbendazole', 'Fenb'),
	'methylene-blue': label('methylene-blue', 'Methylene blue', 'MB'),
	'hydrogen-peroxide': label('hydrogen-peroxide', 'Hydrogen peroxide', 'H2O2'),
	acriflavine: label('acriflavine', 'Acriflavine', 'Acri'),
	'botanical-antibacterial': label('botanical-antibacterial', 'Botanical antibacterial', 'BotB'),
	'botanical-antifungal': label('botanical-antifungal', 'Botanical antifungal', 'BotF'),
	'fresh-water': label('fresh-water', 'Fresh-water dip', 'FW'),
	other: label('other', 'Another medicine', 'Other')
} as const satisfies Record<Active, Label>;
