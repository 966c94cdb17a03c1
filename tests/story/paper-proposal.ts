import { dated } from './dates.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

/**
 * What is asked about the second dose against flukes, moved on a phone from a day to another at the same hour: eight
 * days after the first it still comes between the hatch and the next eggs, so that nothing else moves and no figure is told.
 */
export const proposalPart = (where: string, from: number, to: number): Part => ({
	where,
	says: [
		says`Bay 4: Praziquantel 300 mg`,
		says`${dated(from)}`,
		says`→ ${dated(to)}, 08:00`,
		says`Accept: Bay 4: Praziquantel 300 mg`,
		says`Refuse: Bay 4: Praziquantel 300 mg`
	]
});
