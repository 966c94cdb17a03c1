import { fixedBecause, hourBecause, hourForbidden, hourOf, putThere, staysBecause } from '$lib/calendar';
import type { Plan, Task } from '$lib/planner';
import { applyAll, dayNumber, dayText, readRun, type Edit } from '$lib/run';
import type { Drop, Moves } from './calendar-drag';
import type { RunDesk } from './run-desk.svelte';

/** The edits that dragging in the calendar writes; what may not be says why in one sentence. */
export class CalendarMoves implements Moves {
	readonly #desk: RunDesk;
	/** why something did not move */
	refusal = $state('');
	/** what just moved, for those who do not see it */
	done = $state('');
	/** a drop on a day away waits for a yes */
	question: { sentence: string; yes: () => void } | null = $state.raw(null);

	constructor(desk: RunDesk) {
		this.#desk = desk;
	}

	tasks = async (ids: readonly string[], drop: Drop): Promise<boolean> => {
		const desk = this.#desk;
		const jobs = ids.flatMap((id) => desk.plan.tasks.find((task) => task.id === id) ?? []);
		const fixed = jobs.map((job) => fixedBecause(job, drop.day, desk.today)).find(Boolean);
		const hour = jobs.map((job) => hourBecause(job, drop, desk.run, desk.now)).find(Boolean);
		if (fixed ?? hour) return this.#refuse(fixed ?? hour ?? '');
		if (desk.run.away.includes(drop.day)) {
			const list = jobs.map(({ text }) => text).join('; ');
			this.question = {
				sentence: `You are away on ${drop.day}. Put “${list}” there all the same?`,
				yes: () => void this.#move(jobs, drop)
			};
			return false;
		}
		return this.#move(jobs, drop);
	};

	edge = async (phase: string, edge: 'from' | 'to', day: string): Promise<boolean> => {
		const row = this.#desk.document.phases.findIndex(({ id }) => id === phase);
		const span = this.#desk.plan.phases.find(({ id }) => id === phase);
		if (row < 0 || !span?.from || !span.to || span[edge] === day) return false;
		const over = [span[edge], day].find((one) => one !== null && one < this.#desk.today);
		if (over)
			return this.#refuse(`Row ${row + 1} keeps its ${edge === 'from' ? 'start' : 'end'}: ${over} is over.`);
		return edge === 'from'
			? this.#start(row, phase, day)
			: this.#end(row, { from: span.from, to: span.to }, day);
	};

	nudge = async (phase: string, edge: 'from' | 'to', days: number): Promise<boolean> => {
		const at = this.#desk.plan.phases.find(({ id }) => id === phase)?.[edge];
		return at ? this.edge(phase, edge, dayText(dayNumber(at) + days)) : false;
	};

	answer(yes: boolean) {
		const asked = this.question;
		this.question = null;
		if (yes) asked?.yes();
	}

	clear() {
		this.refusal = this.done = '';
	}

	#refuse(sentence: string): false {
		this.done = '';
		this.refusal = sentence;
		return false;
	}

	/** Jobs go to another day, or hour, if the plan, marched again, has them there and nothing forbids it. */
	async #move(jobs: readonly Task[], drop: Drop): Promise<boolean> {
		const { document, run, plan } = this.#desk;
		const was = document.moves as Record<string, string> | undefined;
		const ids = jobs.map(({ id }) => id);
		const wish = { ...was, ...putThere(run, ids, drop) };
		const rest = Object.fromEntries(Object.entries(was ?? {}).filter(([id]) => !ids.includes(id)));
		const hour = hourOf(drop, run);
		const there = (tried: Plan) =>
			jobs.map((job) => staysBecause(job, tried, drop.day, hour)).find(Boolean) ??
			(jobs.some(({ time }) => hour !== null && time !== hour) ? hourForbidden(plan, tried) : null);
		// back to where its row has it: nothing needs to be written then
		const back = document.moves !== undefined && there(await this.#marched([this.#moves(rest)])) === null;
		return this.#try(
			[this.#moves(back ? rest : wish)],
			there,
			`${jobs.map(({ text }) => text).join('; ')}: ${drop.day}${hour === null ? '' : `, ${hour}`}.`
		);
	}

	#moves = (to: Record<string, string>): Edit => ({ path: ['moves'], was: this.#desk.document.moves, to });

	/** A phase's first day is written into Starts. */
	#start(row: number, phase: string, day: string): Promise<boolean> {
		const old = this.#desk.document.phases[row];
		return this.#try(
			[{ path: ['phases', row, 'starts'], was: old?.starts, to: `on ${day}` }],
			(tried) => {
				const from = tried.phases.find(({ id }) => id === phase)?.from ?? null;
				return from === day
					? null
					: `Row ${row + 1} cannot begin on ${day}${from ? `: it would on ${from}` : ''}.`;
			},
			`Row ${row + 1} starts on ${day}.`
		);
	}

	/** A phase's last day is written into Lasts. */
	async #end(row: number, span: { from: string; to: string }, day: string): Promise<boolean> {
		const old = this.#desk.document.phases[row];
		const days = dayNumber(day) - dayNumber(span.from) + 1;
		if (days < 1) return this.#refuse(`Row ${row + 1} begins on ${span.from}: it cannot end before.`);
		if (!/^\s*\d+(\.\d+)?\s*(d|days?|wk|weeks?)\s*$/i.test(String(old?.lasts)))
			return this.#refuse(
				`Row ${row + 1} lasts “${String(old?.lasts ?? '')}”, so its end follows from the plan. Write days to move it.`
			);
		// a hold ends when its days are credited: what it lasts moves by as many days as its end
		const lasts = this.#desk.run.phases[row]?.lasts;
		const asked = (lasts && 'days' in lasts ? lasts.days : days) + dayNumber(day) - dayNumber(span.to);
		if (asked < 1) return this.#refuse(`Row ${row + 1} lasts a day at least.`);
		return this.#try(
			[{ path: ['phases', row, 'lasts'], was: old?.lasts, to: `${asked} d` }],
			() => null,
			`Row ${row + 1} lasts ${asked} d.`
		);
	}

	async #marched(edits: readonly Edit[]): Promise<Plan> {
		const desk = this.#desk;
		const { plan } = await desk.engage();
		const document = applyAll(desk.document, edits);
		return plan(readRun({ ...document, id: desk.id, log: desk.log }, { today: desk.today }), desk.now);
	}

	async #try(edits: Edit[], refusalOf: (tried: Plan) => string | null, done: string): Promise<boolean> {
		const refusal = refusalOf(await this.#marched(edits));
		if (refusal !== null) return this.#refuse(refusal);
		this.refusal = '';
		this.done = done;
		this.#desk.commit(edits);
		// what was let go of must be found where it lies now
		this.#desk.catchUp();
		return true;
	}
}
