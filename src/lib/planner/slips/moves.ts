import { applyAll, dayNumber, dayText, moveOf, moveText, type Edit, type Taken } from '../../run/index.ts';
import type { Plan, Task } from '../plan.ts';
import { cellEdit } from '../repair/cells.ts';

/**
 * Days written for later jobs of a series follow a choice: as much later as the rest, or forgotten where the series
 * begins again, since its numbers then mean other days.
 */
export function movesOf(
	document: unknown,
	{ tasks }: Plan,
	task: Task,
	taken: Taken,
	laterDays: number
): Edit[] {
	if (taken !== 'now-shift' && taken !== 'restart') return [];
	const moves = (document as { moves?: Record<string, string> }).moves ?? {};
	const [series, n] = split(task.id);
	const edits: Edit[] = [];
	for (const [id, text] of Object.entries(moves)) {
		const [other, number] = split(id);
		const state = tasks.find((one) => one.id === id)?.state ?? 'planned';
		if (other !== series || number <= n || (state !== 'planned' && state !== 'open')) continue;
		const move = moveOf(text);
		if (!move) continue;
		const later = { ...move, day: dayText(dayNumber(move.day) + laterDays) };
		const to = taken === 'restart' ? null : moveText(later);
		const edit = cellEdit(applyAll(document, edits), `moves|${id}`, to);
		if (edit) edits.push(edit);
	}
	return edits;
}

function split(id: string): [series: string, n: number] {
	const at = id.lastIndexOf('/') + 1;
	return [id.slice(0, at), Number.parseInt(id.slice(at), 10)];
}
