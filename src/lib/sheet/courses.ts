import { dayNumber, dayText, type Edit } from '../run/index.ts';
import { freeId, isBlank, type PhaseRow, type SheetDocument } from './rows.ts';
import type { Desk } from './table.ts';

/**
 * Phases that are put in together. `on {day}` in Starts stands for where the course begins, perhaps some days later
 * (`on {day} + 2 d`); a medicine is its active ingredient in braces. Ids name the rows of the course among themselves.
 */
export interface Course {
	id: string;
	name: string;
	about: string;
	phases: readonly Readonly<Record<string, unknown>>[];
	/** saved by a keeper */
	own?: boolean;
}

const opening = /^on \{day\}(?: \+ (\d+) d)?$/;
const placeholder = /^\{([a-z-]+)\}$/;

/** The course of that name, where a row is still empty enough to become one. */
export function courseNamed(desk: Desk, row: number, typed: string): Course | undefined {
	const wanted = typed.trim().toLowerCase();
	const phase = desk.document.phases[row];
	if (!wanted || (phase && !isBlank(phase))) return undefined;
	return desk.courses.find(({ name }) => name.toLowerCase() === wanted);
}

/** Bottles the course needs that the run does not have; their strength is left to whoever reads the label. */
function bottlesFor(document: SheetDocument, desk: Desk, course: Course) {
	const ids = new Map((document.medicines ?? []).map(({ id, active }) => [active, id]));
	const fresh: { id: string; active: string }[] = [];
	for (const { medicine } of course.phases) {
		const active = placeholder.exec(String(medicine))?.[1];
		if (active === undefined || ids.has(active)) continue;
		const short = desk.shelf.find((entry) => entry.active === active)?.short ?? active;
		const id = freeId(
			short,
			[...(document.medicines ?? []), ...fresh].map((bottle) => bottle.id)
		);
		ids.set(active, id);
		fresh.push({ id, active });
	}
	return { ids, fresh };
}

/** Where a course put in at `index` begins: after the row above, else on the day the fish came, else today. */
function beginningAt(desk: Desk, index: number): (days: number) => string {
	const above = desk.document.phases.slice(0, index).findLast(({ kind }) => kind !== 'release');
	if (above) return (days) => `after ${above.id}${days > 0 ? ` + ${days} d` : ''}`;
	const [lot] = (desk.document.lots as { arrived?: string }[] | undefined) ?? [];
	const first = lot?.arrived ?? desk.today;
	return (days) => `on ${days > 0 ? dayText(dayNumber(first) + days) : first}`;
}

const reference = /^(after|with) ([a-z][a-z0-9-]*)/;

/** The edits that put a course in before row `index`, in place of it where it is empty. One act, one step back. */
export function insertCourse(desk: Desk, index: number, course: Course): Edit[] {
	const { document } = desk;
	const at = Math.min(index, document.phases.length);
	const old = document.phases[at];
	const replaced: Edit[] = old && isBlank(old) ? [{ path: ['phases', at], was: old }] : [];
	const taken = document.phases.map(({ id }) => id);
	const { ids, fresh } = bottlesFor(document, desk, course);
	const begins = beginningAt(desk, at);
	const rows = new Map<string, string>();
	for (const phase of course.phases) {
		const id = freeId(String(phase.id), taken);
		taken.push(id);
		rows.set(String(phase.id), id);
	}
	const startOf = (starts: unknown) => {
		const open = opening.exec(String(starts));
		if (open) return begins(Number(open[1] ?? 0));
		return typeof starts === 'string'
			? starts.replace(reference, (_, word: string, id: string) => `${word} ${rows.get(id) ?? id}`)
			: starts;
	};
	const made = course.phases.map((phase): PhaseRow => {
		const active = placeholder.exec(String(phase.medicine))?.[1];
		return {
			...phase,
			id: rows.get(String(phase.id)) ?? String(phase.id),
			...(active === undefined ? {} : { medicine: ids.get(active) }),
			...(phase.starts === undefined ? {} : { starts: startOf(phase.starts) })
		};
	});
	return [
		...bottleEdits(document, fresh),
		...replaced,
		...made.map((row, offset): Edit => ({ path: ['phases', at + offset], to: row }))
	];
}

const bottleEdits = (document: SheetDocument, fresh: { id: string; active: string }[]): Edit[] =>
	document.medicines
		? fresh.map((to, offset) => ({ path: ['medicines', (document.medicines?.length ?? 0) + offset], to }))
		: fresh.length
			? [{ path: ['medicines'], to: fresh }]
			: [];

const dated = /^on (\d{4}-\d{2}-\d{2})$/;
const outside = /^(?:after|with) ([a-z][a-z0-9-]*)(?: \+ (\d+) d)?$/;

/** Rows `top` to `bottom` as a course: what began on a day or with another row begins with the course. */
export function courseOf(document: SheetDocument, top: number, bottom: number): Course['phases'] {
	const rows = document.phases.slice(top, bottom + 1);
	const inside = new Set(rows.map(({ id }) => id));
	const days = rows.flatMap(({ starts }) => dated.exec(String(starts))?.[1] ?? []).map(dayNumber);
	const first = Math.min(...days);
	const startOf = (starts: unknown): unknown => {
		const text = String(starts);
		const day = dated.exec(text)?.[1];
		const named = outside.exec(text);
		const later = day !== undefined ? dayNumber(day) - first : Number(named?.[2] ?? 0);
		if (day === undefined && (!named || inside.has(named[1] ?? ''))) return starts;
		return `on {day}${later > 0 ? ` + ${later} d` : ''}`;
	};
	const activeOf = (medicine: unknown) => document.medicines?.find(({ id }) => id === medicine)?.active;
	return rows.map((row) => {
		const active = activeOf(row.medicine);
		return {
			...row,
			...(active === undefined ? {} : { medicine: `{${active}}` }),
			...(row.starts === undefined ? {} : { starts: startOf(row.starts) })
		};
	});
}
