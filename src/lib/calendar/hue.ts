import type { Active } from '../formulary/index.ts';
import type { Medicine, Phase } from '../run/index.ts';

/** Names of colours, not colours: the style sheet gives each a light and a dark value. */
export type Hue =
	'copper' | 'violet' | 'plum' | 'slate' | 'olive' | 'wash' | 'watch' | 'settle' | 'ink' | 'limit';

const ownHue: Partial<Record<Active, Hue>> = { 'copper-ionic': 'copper', 'copper-chelated': 'copper' };
const spareHues: readonly Hue[] = ['violet', 'plum', 'slate', 'olive'];

/** Phases that go by what they are; all others go by their medicine. */
const kindHue: Partial<Record<Phase['kind'], Hue>> = {
	settle: 'settle',
	observe: 'watch',
	washout: 'wash',
	'low-salinity': 'slate',
	transfer: 'ink',
	release: 'ink'
};

/** A hue for each medicine of a run, by id: copper is copper, the others take turns in shelf order. */
export function medicineHues(medicines: readonly Pick<Medicine, 'id' | 'active'>[]): Record<string, Hue> {
	const hues: Record<string, Hue> = {};
	let turn = 0;
	for (const { id, active } of medicines) {
		hues[id] = ownHue[active] ?? spareHues[turn++ % spareHues.length] ?? 'violet';
	}
	return hues;
}

/** The hue of a phase's band. */
export const phaseHue = (phase: Pick<Phase, 'kind' | 'medicine'>, hues: Record<string, Hue>): Hue =>
	kindHue[phase.kind] ?? (phase.medicine === null ? 'ink' : (hues[phase.medicine] ?? 'ink'));
