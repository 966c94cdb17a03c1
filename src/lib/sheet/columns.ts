/** The columns a keeper types in, in sheet order; the keys are those of a phase in the plan file. */
export const typedColumns = [
	{ key: 'kind', title: 'Phase', expects: 'a kind of phase, such as hold' },
	{ key: 'medicine', title: 'Medicine', expects: 'a medicine of the shelf' },
	{ key: 'starts', title: 'Starts', expects: 'on 27 Nov, after 2, with 2 + 1 d' },
	{ key: 'lasts', title: 'Lasts', expects: '14 d, 3 wk, 2 doses, until clear' },
	{ key: 'level', title: 'Level', expects: '0.15-0.20 mg/L, 2.5 ppm, 16 ppt' },
	{ key: 'repeat', title: 'Repeat', expects: 'every 7 d, daily, Mon, Thu, ramp 2 d' },
	{ key: 'change', title: 'Change', expects: 'auto, 25% every 3 d, none' },
	{ key: 'test', title: 'Test', expects: 'NH3 daily, Cu daily' }
] as const;

/** Columns the plan fills in; they can be copied, never typed into. */
export const computedColumns = [
	{ key: 'from', title: 'From' },
	{ key: 'to', title: 'To' },
	{ key: 'tasks', title: 'Tasks' },
	{ key: 'mark', title: 'Check' }
] as const;

export type TypedKey = (typeof typedColumns)[number]['key'];
export type ComputedKey = (typeof computedColumns)[number]['key'];
export type ColumnKey = TypedKey | ComputedKey;

export const columns: readonly { key: ColumnKey; title: string }[] = [...typedColumns, ...computedColumns];

/** The typed column at a position of the grid; undefined where the plan writes. */
export const typedAt = (column: number): (typeof typedColumns)[number] | undefined => typedColumns[column];
