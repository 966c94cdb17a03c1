import type { Run } from '../../run/index.ts';

/** A row by its place in the plan file, `phases.copper`, but no cell of it. */
const row = /(^|\. )?phases\.([a-z][a-z0-9-]*)(?!\.?[A-Za-z0-9-])/g;

/** A sentence with every row in it as the sheet has it: by its number and what it is. */
export const withRows = (sentence: string, { phases }: Run): string =>
	sentence.replace(row, (place: string, before: string | undefined, id: string) => {
		const at = phases.findIndex((phase) => phase.id === id);
		const phase = phases[at];
		if (!phase) return place;
		const name = `row ${at + 1} (${phase.kind.replaceAll('-', ' ')})`;
		return before === undefined ? name : `${before}R${name.slice(1)}`;
	});
