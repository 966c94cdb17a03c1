import type { Edit } from '$lib/run';
import { typedColumns } from '$lib/sheet';

const titles: Record<string, string> = Object.fromEntries(typedColumns.map(({ key, title }) => [key, title]));
const rowsOf: Record<string, string> = { phases: 'Row', lots: 'Fish', medicines: 'Bottle' };

/** A value in few words; a whole row by what names it. */
export function valueWords(value: unknown): string {
	if (value === undefined || value === '') return 'nothing';
	if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
		const { kind, what, active, name, id } = value as Record<string, unknown>;
		const named = [kind, what, active, name, id].find((word) => typeof word === 'string' && word !== '');
		if (named !== undefined) return String(named);
	}
	const text = typeof value === 'string' ? value : JSON.stringify(value);
	return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}

/** Where an edit points, as the sheet calls it: `Row 2, Lasts`. */
function placeWords(path: readonly (string | number)[]): string {
	const [first = '', second, ...rest] = path;
	const list = rowsOf[String(first)];
	if (list === undefined || typeof second !== 'number') return path.join(', ');
	const keys = rest.map((key) => titles[String(key)] ?? String(key));
	return [`${list} ${second + 1}`, ...keys].join(', ');
}

/** An edit as the history tells it: `Row 2, Lasts: 3 d → 4 d`. */
export function editWords({ path, to, was }: Edit): string {
	const place = placeWords(path);
	const isRow = typeof path.at(-1) === 'number';
	if (isRow && was === undefined) return `${place} put in: ${valueWords(to)}`;
	if (isRow && to === undefined) return `${place} taken out: ${valueWords(was)}`;
	return `${place}: ${valueWords(was)} → ${valueWords(to)}`;
}

/** What a save was, where its edits do not say it. */
export const saveWords: Record<string, string> = {
	create: 'made the run',
	edit: 'changed it',
	restore: 'put an earlier state back',
	delete: 'took it off the lists',
	undelete: 'put it back on the lists',
	import: 'imported it'
};
