import type { Finding, Task } from '$lib/planner';
import { dayNumber, dayText, type Edit } from '$lib/run';
import { clientId } from './client-id';
import { send } from './saver';

/** A run as the page of days away sees it. */
export interface DaysRun {
	id: string;
	name: string;
	version: number;
	timeZone: string;
	/** the day it is there */
	today: string;
	/** as the document has them */
	away: readonly string[] | undefined;
	hands: Record<string, string> | undefined;
	/** jobs due on days away, from today on */
	tasks: readonly Pick<Task, 'id' | 'text' | 'date'>[];
	/** what the checks say of those days, with repairs that were proved to work */
	findings: readonly Pick<Finding, 'severity' | 'date' | 'message' | 'because' | 'repairs'>[];
}

interface DayOfRun {
	id: string;
	name: string;
	hand: string;
	tasks: DaysRun['tasks'];
	finding: DaysRun['findings'][number] | undefined;
}

/** Longest absence that is marked at once. */
const mostDays = 60;

/** Days when nobody can come: read from all runs, written as edits of each. */
export class DaysDesk {
	readonly #runs: () => readonly DaysRun[];
	readonly #reload: () => void;
	readonly today: string;

	busy = $state(false);
	said = $state('');
	trouble = $state(false);

	/** every marked day from today on, with the runs it is marked in */
	readonly days: { day: string; runs: DayOfRun[] }[] = $derived.by(() => {
		const marked = this.#runs().flatMap((run) =>
			(run.away ?? []).filter((day) => day >= this.today).map((day) => ({ day, run }))
		);
		return [...Map.groupBy(marked, ({ day }) => day)]
			.sort(([a], [b]) => (a < b ? -1 : 1))
			.map(([day, of]) => ({ day, runs: of.map(({ run }) => dayOfRun(run, day)) }));
	});

	constructor(runs: () => readonly DaysRun[], now: string, reload: () => void) {
		this.#runs = runs;
		this.#reload = reload;
		this.today =
			runs()
				.map(({ today }) => today)
				.sort()[0] ?? now.slice(0, 10);
	}

	get tomorrow(): string {
		return dayText(dayNumber(this.today) + 1);
	}

	/** Marks every day of a span in one run, or in all. */
	async mark(run: string, from: string, to: string): Promise<void> {
		const length = dayNumber(to) - dayNumber(from) + 1;
		if (length < 1 || length > mostDays) {
			this.#say(`The last day has to be within ${mostDays} days of the first.`, true);
			return;
		}
		const days = Array.from({ length }, (_, n) => dayText(dayNumber(from) + n));
		for (const one of this.#runs().filter(({ id }) => run === '' || id === run)) {
			const next = [...new Set([...(one.away ?? []), ...days])].sort();
			if (!(await this.#send(one, [edit(['away'], one.away, next)]))) return;
		}
		this.#done(length === 1 ? 'The day is marked.' : `${length} days are marked.`);
	}

	async unmark(id: string, day: string): Promise<void> {
		const run = this.#runs().find((one) => one.id === id);
		const rest = (run?.away ?? []).filter((one) => one !== day);
		if (run && (await this.#send(run, [edit(['away'], run.away, rest)])))
			this.#done(`Somebody can come on ${day} after all.`);
	}

	async setHand(id: string, day: string, who: string): Promise<void> {
		const run = this.#runs().find((one) => one.id === id);
		if (!run) return;
		const { [day]: _gone, ...rest } = run.hands ?? {};
		const hands = who.trim() === '' ? rest : { ...rest, [day]: who.trim() };
		if (await this.#send(run, [edit(['hands'], run.hands, hands)])) this.#done('Written down.');
	}

	/** Makes a repair's edits. */
	async save(id: string, edits: readonly Edit[]): Promise<void> {
		const run = this.#runs().find((one) => one.id === id);
		if (run && (await this.#send(run, edits))) this.#done('The plan is changed; undo stands in the run.');
	}

	async #send(run: DaysRun, edits: readonly Edit[]): Promise<boolean> {
		this.busy = true;
		const answer = await send(run.id, run.version, { id: clientId(), edits });
		this.busy = false;
		if (answer.kind === 'saved') return true;
		this.#say(`${run.name}: ${answer.sentence}`, true);
		if (answer.kind === 'clash') this.#reload();
		return false;
	}

	#done(sentence: string): void {
		this.#say(sentence, false);
		this.#reload();
	}

	#say(sentence: string, trouble: boolean): void {
		this.said = sentence;
		this.trouble = trouble;
	}
}

const edit = (path: string[], was: unknown, to: unknown): Edit =>
	was === undefined ? { path, to } : { path, was, to };

const dayOfRun = (run: DaysRun, day: string): DayOfRun => ({
	id: run.id,
	name: run.name,
	hand: run.hands?.[day] ?? '',
	tasks: run.tasks.filter(({ date }) => date === day),
	finding: run.findings.find(({ date }) => date === day)
});
