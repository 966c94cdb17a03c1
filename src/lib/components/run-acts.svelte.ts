import type { Plan } from '$lib/planner';
import { applyAll, dayNumber, dayText, readRun, type CellProblem, type Edit } from '$lib/run';
import { at, columns, typedAt, type Spot } from '$lib/sheet';
import type { Moves } from './calendar-drag';
import type { RunDesk } from './run-desk.svelte';
import type { SheetDesk } from './sheet-desk.svelte';

/** What sheet and calendar do to each other: selecting, opening days, and the edits a drag writes. */
export class RunActs {
	readonly #desk: RunDesk;
	readonly #sheet: SheetDesk;

	/** a row was selected on purpose, so its days are lit */
	picked = $state(false);
	openDay: string | null = $state(null);
	openTask: string | null = $state(null);
	/** why something did not move */
	refusal = $state('');

	constructor(desk: RunDesk, sheet: SheetDesk) {
		this.#desk = desk;
		this.#sheet = sheet;
	}

	readonly moves: Moves = {
		tasks: (tasks, day) => this.#moveTasks(tasks, day),
		edge: (phase, edge, day) => this.#moveEdge(phase, edge, day),
		nudge: (phase, edge, days) => {
			const from = this.#desk.plan.phases.find(({ id }) => id === phase)?.[edge];
			if (from) this.#moveEdge(phase, edge, dayText(dayNumber(from) + days));
		}
	};

	rowOf(phase: string): number {
		return this.#desk.document.phases.findIndex(({ id }) => id === phase) + 1;
	}

	pickRow(row: number) {
		this.#sheet.selectRows(row);
		this.picked = true;
	}

	pickPhase(phase: string) {
		this.pickRow(this.rowOf(phase) - 1);
	}

	cellOf({ row, column }: Spot): string {
		return `phases.${this.#desk.document.phases[row]?.id}.${columns[column]?.key}`;
	}

	/** What the active cell takes, or why it cannot be read. */
	cellLine(problem: CellProblem | undefined): string {
		if (problem) return `“${problem.seen}” was not understood; expected ${problem.expected}.`;
		const typed = typedAt(this.#sheet.active.column);
		return typed ? `${typed.title}: ${typed.expects}` : 'Computed by the plan';
	}

	/** Goes to a cell of the sheet by its place in the plan file; false when it stands elsewhere. */
	goTo(cell: string): boolean {
		const [list, id, key] = cell.split('.');
		const row = this.#desk.document.phases.findIndex((phase) => phase.id === id);
		if (list !== 'phases' || row < 0) return false;
		const column = columns.findIndex((one) => one.key === key);
		this.#sheet.selection = at(row, Math.max(0, column));
		this.picked = true;
		return true;
	}

	open(day: string, task?: string) {
		this.refusal = '';
		this.openDay = day;
		this.openTask = task ?? null;
	}

	close() {
		this.openDay = this.openTask = null;
	}

	setAway(day: string, away: boolean) {
		const was = (this.#desk.document.away as string[] | undefined) ?? undefined;
		const rest = (was ?? []).filter((one) => one !== day);
		this.#desk.commit([{ path: ['away'], was, to: away ? [...rest, day].sort() : rest }]);
	}

	/** Jobs go to another day if the plan, marched again, has them there; else it says why not. */
	#moveTasks(tasks: readonly string[], day: string) {
		const moves = this.#desk.document.moves as Record<string, string> | undefined;
		const wish = { ...moves, ...Object.fromEntries(tasks.map((task) => [task, day])) };
		const edit: Edit = { path: ['moves'], was: moves, to: wish };
		void this.#try([edit], (tried) => {
			const stuck = tried.tasks.find((task) => tasks.includes(task.id) && task.date !== day);
			return stuck ? `${stuck.text} stays on ${stuck.date}: its phase gives that day.` : null;
		});
	}

	/** A phase's first day is written into Starts, its last into Lasts. */
	#moveEdge(phase: string, edge: 'from' | 'to', day: string) {
		const row = this.#desk.document.phases.findIndex(({ id }) => id === phase);
		const span = this.#desk.plan.phases.find(({ id }) => id === phase);
		const old = this.#desk.document.phases[row];
		if (!old || !span?.from || !span.to) return;
		if (edge === 'from') {
			void this.#try([{ path: ['phases', row, 'starts'], was: old.starts, to: `on ${day}` }], () => null);
			return;
		}
		const days = dayNumber(day) - dayNumber(span.from) + 1;
		if (days < 1) return;
		if (!/^\s*\d+(\.\d+)?\s*(d|days?|wk|weeks?)\s*$/i.test(String(old.lasts))) {
			this.refusal = `Row ${row + 1} lasts “${String(old.lasts)}”, so its end follows from the plan. Write days to move it.`;
			return;
		}
		// a hold ends when its days are credited: what it lasts moves by as many days as its end
		const shift = dayNumber(day) - dayNumber(span.to);
		const lasts = this.#desk.run.phases[row]?.lasts;
		const asked = lasts && 'days' in lasts ? lasts.days : days;
		if (asked + shift < 1) return;
		void this.#try(
			[{ path: ['phases', row, 'lasts'], was: old.lasts, to: `${asked + shift} d` }],
			() => null
		);
	}

	async #try(edits: Edit[], refusalOf: (tried: Plan) => string | null) {
		const desk = this.#desk;
		const { plan } = await desk.engage();
		const document = applyAll(desk.document, edits);
		const run = readRun({ ...document, id: desk.id, log: desk.log }, { today: desk.today });
		this.refusal = refusalOf(plan(run, desk.now)) ?? '';
		if (!this.refusal) desk.commit(edits);
	}
}
