import {
	factKinds,
	factOf,
	freeLotId,
	instantIn,
	measureTyped,
	momentTrouble,
	troublesOf,
	typedOf,
	wallClock,
	type FactKind,
	type FieldTrouble,
	type RawEntry,
	type Typed
} from '$lib/ledger';
import type { FactRecord } from './fact-record.svelte';
import type { Units } from './unit-system.svelte';

/** A fact that is being typed. Nothing typed is lost when the kind changes, or when the log refuses it. */
export class FactDraft {
	readonly #record: FactRecord;
	readonly #units: Units;
	/** the entry that is corrected; null: a new fact */
	readonly corrects: RawEntry | null;
	readonly #key: string;

	kind: FactKind = $state('reading');
	typed: Typed = $state.raw({});
	day = $state('');
	time = $state('');
	/** the moment was typed, else it is now */
	timed = $state(false);
	troubles: readonly FieldTrouble[] = $state.raw([]);
	momentTrouble = $state('');

	readonly row = $derived(factKinds.find(({ kind }) => kind === this.kind));
	readonly measure = $derived.by(() => measureTyped(this.#record.run, this.typed, this.#units.system));

	constructor(record: FactRecord, units: Units, corrects: RawEntry | null) {
		this.#record = record;
		this.#units = units;
		this.corrects = corrects;
		this.#key = `lazaret-fact-${record.id}`;
		const was = corrects && typedOf(corrects);
		this.kind = was?.kind ?? 'reading';
		this.typed = { restart: true, on: true, source: 'source', group: 'other', ...was?.typed };
		const moment = wallClock(record.run.timeZone, Date.parse(corrects?.at ?? record.now));
		this.day = moment.day;
		this.time = moment.time;
	}

	put(key: string, value: string | boolean | string[]) {
		this.typed = { ...this.typed, [key]: value };
		this.troubles = this.troubles.filter(({ field }) => field !== key);
		this.#keep();
	}

	setKind(kind: FactKind) {
		this.kind = kind;
		this.troubles = [];
		this.#keep();
	}

	setMoment(day: string, time: string) {
		this.day = day;
		this.time = time;
		this.timed = true;
		this.momentTrouble = '';
	}

	troubleOf(field: string): string {
		return this.troubles.find((trouble) => trouble.field === field)?.sentence ?? '';
	}

	/** What a reload of this tab would otherwise lose. */
	resume() {
		if (this.corrects) return;
		try {
			const kept = sessionStorage.getItem(this.#key);
			if (!kept) return;
			const { kind, typed } = JSON.parse(kept) as { kind: FactKind; typed: Typed };
			this.kind = kind;
			this.typed = { ...this.typed, ...typed };
		} catch {
			// nothing was kept
		}
	}

	#keep() {
		if (this.corrects) return;
		try {
			sessionStorage.setItem(this.#key, JSON.stringify({ kind: this.kind, typed: this.typed }));
		} catch {
			// no room: a reload then begins anew
		}
	}

	/** Writes it into the log; null and the troubles stand at their fields when the log would refuse it. */
	write(): RawEntry | null {
		const typed = { ...this.typed, id: this.typed.id ?? freeLotId(this.#record.run) };
		const fact = factOf(this.kind, typed, this.measure);
		const at = this.#moment();
		if (at === null) return null;
		const entry = this.corrects ? this.#correction(fact, at) : { ...this.#withTask(fact), at };
		const trial: RawEntry = { id: 'new-fact', ...entry };
		this.troubles = troublesOf(this.#record.document, this.#record.raws, trial, this.kind);
		if (this.troubles.length > 0) return null;
		const written = this.#record.write(entry);
		if (!this.corrects) this.#clear();
		return written;
	}

	#moment(): string | null {
		const zone = this.#record.run.timeZone;
		const now = new Date().toISOString();
		if (!this.timed && this.corrects) return now;
		const { day, time } = this.timed ? this : wallClock(zone, Date.parse(now));
		const placed = () => instantIn(zone, day, time);
		const trouble = momentTrouble({ day, time, placed }, Date.parse(now), this.#record.plan.begins);
		this.momentTrouble = trouble ?? '';
		return trouble ? null : placed().at;
	}

	/** A correction is written now; what it replaces keeps its moment unless another was typed. */
	#correction(fact: { kind: string }, at: string) {
		const { bag, task } = this.corrects ?? ({} as Partial<RawEntry>);
		const kept = { ...(bag ? { bag } : {}), ...(task && fact.kind === this.corrects?.kind ? { task } : {}) };
		const as = { ...kept, ...fact, ...(this.timed ? { at } : {}) };
		return { kind: 'correct', at: new Date().toISOString(), entry: this.corrects?.id ?? '', as };
	}

	/** A reading answers the test of its day that asks for it and has no answer yet. */
	#withTask(fact: { kind: string } & Record<string, unknown>) {
		if (fact.kind !== 'reading') return fact;
		const { run, plan, now } = this.#record;
		const day = this.timed ? this.day : wallClock(run.timeZone, Date.parse(now)).day;
		const test = plan.tasks.find(
			({ kind, date, state, what }) =>
				kind === 'test' && date === day && state !== 'done' && what?.includes(String(fact.what))
		);
		return test ? { ...fact, task: test.id } : fact;
	}

	#clear() {
		this.typed = { restart: true, on: true, source: 'source', group: 'other' };
		this.timed = false;
		try {
			sessionStorage.removeItem(this.#key);
		} catch {
			// it is written over by the next
		}
	}
}
