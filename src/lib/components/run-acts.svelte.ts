import type { Plan } from '$lib/planner';
import {
	at,
	boxOf,
	columns,
	findingsByCell,
	goneInWords,
	typedAt,
	type Selection,
	type Spot
} from '$lib/sheet';
import { afterPaint } from './after-paint';
import { CalendarMoves } from './calendar-moves.svelte';
import type { RunDesk } from './run-desk.svelte';
import { severityNames } from './finding-words';
import type { SheetDesk } from './sheet-desk.svelte';

/** What sheet and calendar do to each other: selecting, opening days, and the edits a drag writes. */
export class RunActs {
	readonly #desk: RunDesk;
	readonly #sheet: SheetDesk;

	/** a row was selected on purpose, so its days are lit */
	picked = $state(false);
	openDay: string | null = $state(null);
	openTask: string | null = $state(null);
	readonly moves: CalendarMoves;
	/** what is selected, as the page beside the sheet tells it: a frame behind, so that no key waits for it */
	told: Selection = $state.raw(at(0, 0));
	lights = $derived(boxOf(this.told));
	#behind = false;

	constructor(desk: RunDesk, sheet: SheetDesk) {
		this.#desk = desk;
		this.#sheet = sheet;
		this.moves = new CalendarMoves(desk);
	}

	/** Tells of the selection in the frame after this one; to be called in an effect. */
	follow() {
		void this.#sheet.selection;
		if (this.#behind) return;
		this.#behind = true;
		afterPaint(() => {
			this.#behind = false;
			this.told = this.#sheet.selection;
		});
	}

	/** The phases of the selected rows, when somebody selected them on purpose. */
	get lit(): string[] {
		const { top, bottom } = this.lights;
		return this.picked ? this.#desk.document.phases.slice(top, bottom + 1).map(({ id }) => id) : [];
	}

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

	/** What the active cell takes, why it cannot be read, or what a check says of it. */
	cellLine(): string {
		const { plan, document } = this.#desk.drawn;
		const { row, column } = this.told.active;
		const problem = plan.problems.find(({ cell }) => cell === this.cellOf({ row, column }));
		if (problem)
			return `“${goneInWords(problem.seen, this.#desk.gone)}” was not understood; expected ${problem.expected}.`;
		const ofRow = findingsByCell(plan).get(document.phases[row]?.id ?? '');
		const finding = ofRow?.[columns[column]?.key ?? ''];
		if (finding) return `${severityNames[finding.severity]}. ${finding.message}`;
		const typed = typedAt(column);
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
		this.moves.clear();
		this.openDay = day;
		this.openTask = task ?? null;
	}

	/** Opens the day of a task, as an address asks for it; what is not planned any more is said. */
	openTaskOf(plan: Plan, id: string) {
		const task = plan.tasks.find((one) => one.id === id);
		if (task) this.open(task.date, id);
		else this.moves.refusal = `The plan has no task “${id}” any more.`;
	}

	close() {
		this.openDay = this.openTask = null;
	}

	setAway(day: string, away: boolean) {
		const was = (this.#desk.document.away as string[] | undefined) ?? undefined;
		const rest = (was ?? []).filter((one) => one !== day);
		this.#desk.commit([{ path: ['away'], was, to: away ? [...rest, day].sort() : rest }]);
	}
}
