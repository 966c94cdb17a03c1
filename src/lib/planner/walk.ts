import { dayNumber, type Phase, type Run } from '../run/index.ts';
import { taughtRates, type Learning } from './fit/learning.ts';
import { traceOf, type Trace } from './fit/trace.ts';
import { bottlesOf, type Bottle } from './bottle.ts';
import { instantText, type Service } from './clock.ts';
import { levelOtherwise, noDoubt, type Doubt } from './doubt.ts';
import type { Emergency } from './emergency.ts';
import type { Deed, Job } from './job.ts';
import type { Bench, PhaseRun } from './phase-kind.ts';
import type { PhaseSpan, Sample, Task } from './plan.ts';
import { ratesOf } from './rates.ts';
import { stockOf, type Stock } from './stock.ts';
import {
	ageAll,
	afterAll,
	fill,
	levelOf,
	mostOf,
	sampleOf,
	type Effect,
	type Forecast,
	type ForecastRates,
	type NewWater,
	type Surroundings
} from './tank-water.ts';

const MS_PER_DAY = 86_400_000;
/** Without a volume the walk still finds the days; a litre stands in, and no level or amount is shown. */
const STAND_IN_L = 1;

/** A phase under way. */
export interface Active {
	phase: Phase;
	bottle: Bottle | null;
	from: number;
	machine: PhaseRun;
}

/** A task that was due, with what its logged answer needs. */
export interface Due {
	task: Task;
	job: Job;
	deed: Deed;
	service: Service;
	/** nobody has said whether it was done, and a later service has passed */
	unanswered?: boolean;
	/** the keeper chose to give it up: no other choice about it counts */
	settled?: boolean;
	/** the keeper chose its moment, which is no service: the hours before it count for themselves */
	chosen?: true;
	/** an emergency asks for it, and withdraws it */
	urgent?: true;
}

/** Everything that changes while the march walks. One per march; nothing outlives it. */
export class Walk {
	readonly run: Run;
	readonly begins: number;
	/** words and samples are made only for the walk that is shown */
	readonly recorded: boolean;
	/** what the tank the fish are in holds when full; null while no volume is known */
	netL: number | null;
	readonly bottles: Bottle[];
	readonly source: NewWater;
	readonly stock: Stock[];
	readonly tasks: Task[] = [];
	readonly levels: Sample[] = [];
	readonly spans = new Map<string, PhaseSpan>();
	readonly due = new Map<string, Due>();
	readonly lastTest = new Map<string, number>();
	readonly readings = new Map<string, { value: number; wall: number }>();
	/** tests that a reading has answered, maybe before their service */
	readonly readTasks = new Set<string>();
	readonly doubts: Doubt[];
	active: Active[] = [];
	/** every phase that has begun, by id, also those that are over */
	readonly begun = new Map<string, Active>();
	/** doses and wash-outs of services that have passed, also those that nothing was left to do for when their turn came */
	readonly figured = new Map<string, { job: Job; service: Service }>();
	/** jobs of the latest service that no entry answers, while entries are still to be replayed; `chosen`: due since the keeper chose it */
	open: { job: Job; service: Service; chosen?: boolean }[] = [];
	/** the change that toxic ammonia asks for; null: it asks for none, or that has its answer */
	emergency: Emergency | null = null;
	/** when the last one of these was made, wall-clock days */
	thinnedWall: number | null = null;
	/** where the running interval began; null: at the first service */
	since: Service | null = null;
	/** phases that are over while their last dose still acts */
	lingering: Active[] = [];
	forecast: Forecast;
	/** when the work that is figured now is done at the soonest, wall-clock days */
	handsWall = -Infinity;
	/** the instant the water stands at; before the first entry or service it has not begun to age */
	atMs = -Infinity;
	/** lowest level of each medicine since the last service's jobs */
	lowest: number[] = [];
	saltiest: number | null = null;
	around: Surroundings;
	filterRuns = true;
	/** when water was last changed, wall-clock days; null: not yet */
	changedWall: number | null = null;
	/** what the run's readings taught so far */
	readonly learning: Learning = { ammonia: null, losses: new Map(), pending: [] };
	/** the water that the reading met which this march was made for */
	met: Forecast | null = null;
	/** what happened to the water, while there is still something to learn from it; null: nothing was read */
	readonly trace: Trace | null;
	/** carbon and resin in the tank now */
	readonly inPlace = new Set<string>();

	constructor(run: Run, begins: number, recorded: boolean) {
		this.run = run;
		this.begins = begins;
		this.recorded = recorded;
		this.netL = run.tank.netL;
		const { tank, source } = run;
		this.bottles = bottlesOf(run);
		this.stock = stockOf(run, begins);
		const salinityPpt = tank.salinityPpt ?? source.salinityPpt;
		this.source = {
			tanMgNPerL: source.ammoniaMgNPerL,
			nitrateMgPerL: source.nitrateMgPerL,
			salinityPpt: source.salinityPpt ?? salinityPpt ?? 0
		};
		this.around = { temperatureC: tank.temperatureC, pH: tank.pH, salinityKnown: salinityPpt !== null };
		const start = fill(
			tank.netL ?? STAND_IN_L,
			{
				tanMgNPerL: tank.ammoniaMgNPerL ?? source.ammoniaMgNPerL,
				nitrateMgPerL: tank.nitrateMgPerL ?? source.nitrateMgPerL,
				salinityPpt: salinityPpt ?? 0
			},
			this.bottles.length
		);
		this.forecast = { central: start, low: start, high: start };
		this.trace = traceOf(run, start);
		for (const what of ['carbon', 'resin'] as const) if (tank[what]) this.inPlace.add(what);
		this.doubts = this.bottles.map(noDoubt);
	}

	/** What works on the water now, with what was learned. */
	rates(day: number): ForecastRates {
		return taughtRates(ratesOf(this, day), this.learning, this.bottles);
	}

	equip(what: string, on: boolean): void {
		if (what === 'filter') this.filterRuns = on;
		else if (on) this.inPlace.add(what);
		else this.inPlace.delete(what);
	}

	/** Let the water age to an instant. */
	ageTo(atMs: number, day: number): void {
		if (this.atMs === -Infinity) this.atMs = atMs;
		const days = (atMs - this.atMs) / MS_PER_DAY;
		if (days > 0) {
			const rates = this.rates(day);
			this.note({ is: 'age', days, volumeL: this.forecast.central.volumeL, rates: rates.central });
			this.forecast = ageAll(this.forecast, rates, days);
			this.atMs = atMs;
		}
		this.noteExtremes();
	}

	/** `wall` is when, on the keeper's clock. */
	apply(effects: readonly Effect[], wall: number): void {
		if (effects.some(({ does }) => does === 'change' || does === 'renew')) this.changedWall = wall;
		for (const effect of effects)
			if (effect.does === 'renew' && this.netL !== null) this.netL = effect.volumeL;
		for (const effect of effects) {
			this.note({ is: 'effect', effect, volumeL: this.forecast.central.volumeL });
			this.forecast = afterAll(this.forecast, effect);
		}
	}

	note(event: Trace['events'][number]): void {
		if (this.trace?.open) this.trace.events.push(event);
	}

	noteExtremes(): void {
		const { central } = this.forecast;
		this.bottles.forEach((bottle, i) => {
			this.lowest[i] = Math.min(this.lowest[i] ?? Infinity, levelOf(central, bottle));
		});
		if (this.around.salinityKnown)
			this.saltiest = Math.max(this.saltiest ?? 0, central.saltG / central.volumeL);
	}

	/** The next interval begins here. */
	startInterval(): void {
		this.lowest = [];
		this.saltiest = null;
		this.noteExtremes();
	}

	sample(when: Sample['when'], date: Sample['date']): void {
		if (!this.recorded || this.run.tank.netL === null) return;
		const moment = { at: instantText(this.atMs), date, when };
		this.levels.push(sampleOf(this.forecast, this.bottles, this.around, moment));
	}

	/** New water for changes now: thinned to the tank's own salinity while a low-salinity course runs. */
	newWater(): NewWater {
		const lowered = this.active.some(({ phase }) => phase.kind === 'low-salinity');
		const { central } = this.forecast;
		const share =
			lowered && this.source.salinityPpt > 0 ? central.saltG / central.volumeL / this.source.salinityPpt : 1;
		if (share >= 1) return this.source;
		return {
			tanMgNPerL: this.source.tanMgNPerL * share,
			nitrateMgPerL: this.source.nitrateMgPerL * share,
			salinityPpt: this.source.salinityPpt * share
		};
	}

	/** What the tank tells a phase. */
	bench(plannedChange: Bench['plannedChange']): Bench {
		const away = new Set(this.run.away.map(dayNumber));
		return {
			run: this.run,
			bottles: this.bottles,
			netL: this.run.tank.netL,
			level: (bottle) => levelOf(this.forecast.central, bottle),
			mostLeft: (bottle) => mostOf(this.forecast, bottle),
			salinityPpt: () =>
				this.around.salinityKnown ? this.forecast.central.saltG / this.forecast.central.volumeL : null,
			lastTest: (what) => this.lastTest.get(what) ?? null,
			away: (day) => away.has(day),
			plannedChange,
			kitStillShows: (what, above, since) => this.stillShows(what, above, since),
			unconfirmedRoom: (bottle, water) => this.unconfirmedRoom(bottle, water),
			withheld: (bottle) => this.withheld(bottle),
			handsWall: () => this.handsWall
		};
	}

	/** A planned test agrees with the forecast, so a reading speaks only until the next test of the same thing. */
	private stillShows(what: string, above: number, since: number): boolean {
		const reading = this.readings.get(what);
		if (!reading || reading.wall < since || reading.value <= above) return false;
		return reading.wall >= (this.lastTest.get(what) ?? reading.wall);
	}

	/** Tell the phases what has passed since the interval began; the next one begins here. */
	pass(until: Service, bench: Bench): void {
		const from = this.since;
		if (from && until.wall <= from.wall) return;
		this.since = until;
		if (!from) return;
		const wallDays = until.wall - from.wall;
		const interval = { from, wallDays, lowest: [...this.lowest], saltiestPpt: this.saltiest };
		for (const { machine } of this.active) machine.passed?.(interval, bench);
	}

	/** Nobody has said whether this dose was given: no other of its medicine may be figured. */
	doubt(due: Due): void {
		due.unanswered = true;
		// without an amount nothing was to be given, so nobody has to say whether it was
		const given = due.job.kind === 'dose' && due.deed.amount !== null;
		const standing = given && due.job.bottle && this.doubts[due.job.bottle.index];
		if (standing) standing.unanswered ??= due.task.id;
	}

	/** It is known now what became of a task; another dose that nobody answered for may still stand in the way. */
	answer(task: string): void {
		const due = this.due.get(task);
		if (due) due.unanswered = false;
		for (const [index, doubt] of this.doubts.entries()) {
			if (doubt.unanswered !== task) continue;
			const other = [...this.due.values()].find(
				({ job, deed, unanswered }) =>
					unanswered && deed.amount !== null && job.kind === 'dose' && job.bottle?.index === index
			);
			doubt.unanswered = other?.task.id ?? null;
		}
	}

	/**
	 * A reading says what is in the water, whatever was given before. The test of a service comes before its dose, so it
	 * says nothing of that one.
	 */
	answerAll(bottle: Bottle, test: string | undefined): void {
		const service = test === undefined ? undefined : this.due.get(test)?.service;
		for (const due of [...this.due.values()].filter(({ job }) => job.bottle === bottle)) {
			if (due.unanswered && due.service !== service) this.answer(due.task.id);
		}
	}

	/** A second look has agreed with the low reading before it. */
	confirm(bottle: Bottle): void {
		const doubt = this.doubts[bottle.index];
		if (doubt) doubt.unconfirmed = null;
	}

	/** Whichever is right, the reading or the forecast, nothing passes the ceiling. */
	private unconfirmedRoom(bottle: Bottle, { central }: Forecast): number | null {
		const doubt = this.doubts[bottle.index]?.unconfirmed ?? null;
		if (doubt === null || bottle.ceiling === null) return null;
		const level = levelOf(central, bottle);
		return bottle.ceiling - Math.max(level, levelOtherwise(doubt, level, central.volumeL));
	}

	private withheld(bottle: Bottle): string | null {
		const doubt = this.doubts[bottle.index];
		if (doubt?.implausible) return `${doubt.implausible}; test again first`;
		if (doubt?.unanswered) {
			const date = this.due.get(doubt.unanswered)?.service.date;
			return `it is not known whether ${date ? `the dose of ${date}` : 'an earlier dose'} was given; log it or test first`;
		}
		return null;
	}
}
