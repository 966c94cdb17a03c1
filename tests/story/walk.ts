import { expect } from '@playwright/test';
import { dated } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import type { Keeper } from './keeper.ts';
import type { PaperJob } from './paper-job.ts';
import {
	ammoniaVerdict,
	changeJob,
	clear,
	copperDose,
	copperTest,
	copperVerdict,
	washVerdict
} from './paper-jobs.ts';
import { jobsOf, nextDue, spans } from './paper-plan.ts';
import { PaperLedger } from './paper-ledger.ts';
import { PaperLog } from './paper-log.ts';
import { daysAhead } from './paper-course.ts';
import type { Outlook } from './paper-outlook.ts';
import { PaperPast } from './paper-past.ts';
import { PaperRound } from './paper-round.ts';
import { isChangeDay } from './paper-rows.ts';
import { standing } from './paper-standing.ts';
import { changesOf } from './paper-watch.ts';
import { figure, says } from './says.ts';
import { sweep, type Part } from './sweep.ts';

/** What is said of a level under the floor. */
const fallen = (day: number, level: number): Part => ({
	where: '.tank > .says.caution',
	says: [
		says`Caution. Ionic copper falls to ${figure(level, 3)} mg/L on ${dated(day)}, under the floor of 0.15 mg/L.`
	]
});

/** The keeper and the tank of paper, day by day: what the page says is held against paper before and after each touch. */
export class Walk {
	readonly keeper: Keeper;
	readonly tank: HandTank;
	readonly log = new PaperLog();
	readonly ledger = new PaperLedger();
	readonly past = new PaperPast();
	fish = 4;
	round = new PaperRound(-1, []);
	/** days of the watch on which water is changed, and how much of it */
	changes: { day: number; percent: number }[] = [];
	/** what may be left of copper in the next half day, by the most that a low reading just before may have taught */
	leftOvernight = 1;
	/** copper that may be there though a reading says less, mg/L, until a second one confirms it */
	doubt: number | null = null;
	/** the day water was changed last */
	#changed = 0;

	constructor(keeper: Keeper, tank: HandTank) {
		this.keeper = keeper;
		this.tank = tank;
	}

	/** The page of a day as it is found, before anything is done. */
	async find(
		day: number,
		about: {
			time?: string;
			above?: Part[];
			loose?: PaperRound['loose'];
			hours?: string[];
			/** mg/L of copper of a dose that is open, taken as given until the next service */
			open?: number;
			carried?: PaperJob[];
		} = {}
	) {
		await this.keeper.today(day, about.time);
		if (day === spans.watch[0]) this.changes = this.#watchChanges();
		const own = this.changes.find((one) => one.day === day);
		if (own) this.tank.share = own.percent / 100;
		const days = this.changes.map((one) => one.day);
		this.ledger.begin(day, this.tank);
		this.past.begin(day, this.tank);
		const jobs = jobsOf(day, this.tank, this.tank.loss.forecastAt(day) + (about.open ?? 0), days);
		const above = [...(about.above ?? []), ...this.#lowForecast(day)];
		this.round = new PaperRound(day, [...(about.carried ?? []), ...jobs], {
			above,
			loose: about.loose ?? [],
			hours: about.hours ?? [],
			next: jobs.length === 0 ? nextDue(day, this.tank, days) : ''
		});
		await this.look('as found');
	}

	/** Everything on the page against paper, the jobs in their order. */
	async look(when: string, over: Part[] = []): Promise<void> {
		const { day, jobs } = this.round;
		const parts = [...over, ...this.round.parts()];
		await sweep(this.keeper.page, `Today, ${dated(day)}, ${when}`, parts);
		const keys = (await this.keeper.shown()).map(({ key }) => key);
		expect.soft(keys, `jobs of ${dated(day)}, ${when}`).toEqual(jobs.map(({ key }) => key));
	}

	/** The jobs of the open day from the first that waits to the last, or to one that is named. */
	async work(until = /^$/): Promise<void> {
		for (;;) {
			const next = this.round.jobs.find(({ answer }) => !answer);
			if (!next || until.test(next.key)) return;
			await this.#do(next);
			await this.look(`after ${next.key}`);
		}
	}

	async #do(job: PaperJob): Promise<void> {
		const { key } = job;
		if (key.includes('/test/')) return this.#test(job);
		if (key.includes('/observe/')) {
			await this.keeper.look(key);
			this.log.write(this.round.day, '08:05', 'All fish: no signs');
			return this.answer(job, 'no signs');
		}
		if (/\/(change|washout)\//.test(key)) {
			await this.keeper.done(key);
			this.tank.change(this.tank.changeL());
			this.#changed = this.round.day;
			const litres = `${figure(this.tank.changeL(), 1)} L`;
			this.note(key.includes('/washout/') ? `Wash out ${litres}` : `Change ${litres}`);
			return this.answer(job, litres);
		}
		if (key.startsWith('copper/dose/')) {
			const level = this.tank.copperMgPerL();
			const mL = this.tank.topUpMl(level, this.doubt ?? level);
			await this.keeper.done(key);
			this.tank.giveCopper(mL);
			this.note(`Ionic copper ${mL.toFixed(1)} mL`);
			return this.answer(job, `${mL.toFixed(1)} mL`);
		}
		await this.keeper.done(key);
		if (!key.startsWith('flukes/')) {
			this.log.write(this.round.day, '08:05', `Done: ${job.text.text}`);
			return this.answer(job, 'done');
		}
		this.tank.givePraziquantel();
		const mg = `${2.5 * this.tank.litres} mg`;
		this.note(`Praziquantel ${mg}`);
		this.answer(job, mg);
	}

	/** Something given or changed, in the log and in the ledger. */
	note(deed: string, time = '08:05'): void {
		const { day } = this.round;
		this.log.write(day, time, `Done: ${deed}`);
		this.ledger.note(day, deed);
		const amount = Number(/([\d.]+) m?L$/.exec(deed)?.[1] ?? 0);
		if (deed.startsWith('Ionic copper')) this.tank.loss.note(day, time, 'given', amount * 2);
		if (/^(Change|Wash out)/.test(deed)) this.tank.loss.note(day, time, 'changed', amount / this.tank.litres);
	}

	/** A reading, in the log and in the ledger. */
	wrote(
		thing: 'Copper' | 'Ammonia' | 'Nitrate',
		typed: string,
		time = '08:05',
		expected?: number,
		least?: number
	): void {
		if (thing === 'Copper') this.tank.loss.note(this.round.day, time, 'read', Number(typed));
		this.log.write(this.round.day, time, `${thing} read at ${figure(Number(typed), 3)} mg/L`);
		this.ledger.read(this.round.day, thing, typed, expected, least);
	}

	answer(job: PaperJob, shows: string, time = '08:05'): void {
		job.answer = { shows, time, reading: job.key.includes('/test/'), undo: true };
		this.past.did(this.round.day, job.key, job.text.text, shows);
		this.past.note(this.round.day, this.tank);
	}

	/** A day on which nobody comes. */
	away(day: number): void {
		this.tank.days(1);
		this.ledger.begin(day, this.tank, true);
		this.past.begin(day, this.tank, ['Cu', 'NH₃']);
	}

	/** The run as it stands on the evening of the open day. */
	outlook(): Outlook {
		const { day, jobs } = this.round;
		const stands = standing(day, this.fish);
		const known = day >= stands.rows.watch[0] ? this.changes : null;
		const mL = jobs.some(({ key, answer }) => key.startsWith('copper/dose/') && !answer)
			? this.tank.topUpMl()
			: 0;
		const past = mL > 0 ? this.past.withOpen(mL, this.tank) : this.past.days;
		return {
			...stands,
			days: [...past, ...daysAhead(this.tank, day, stands.rows, known, this.tank.riseOf(mL))]
		};
	}

	async #test(job: PaperJob): Promise<void> {
		const { key } = job;
		const { tank } = this;
		if (key.includes('Cu') || key.startsWith('wash/')) {
			const expected = tank.copperMgPerL();
			const typed = tank.kitCopperMgPerL().toFixed(3);
			await this.keeper.read(key, typed);
			// inside, what was thought to be lost before it was read was not; a low one is judged by what was forecast
			if (Number(typed) >= 0.15 || !key.startsWith('copper/'))
				job.line = copperTest(key, expected, job.minutes).line;
			this.wrote('Copper', typed, '08:05', expected, expected * this.leftOvernight);
			this.leftOvernight = 1;
			return this.heardCopper(job, typed);
		}
		const isNitrate = key.endsWith('#NO3') || key === 'watch/test/8';
		const typed = isNitrate ? '0' : tank.kitTanMgPerL().toFixed(3);
		await this.keeper.read(key, typed);
		this.wrote(isNitrate ? 'Nitrate' : 'Ammonia', typed);
		this.answer(job, `${figure(Number(typed), 3)} mg/L`);
		job.verdict = [isNitrate ? says`0 mg/L; forecast 0.` : ammoniaVerdict(typed)];
	}

	/** A reading of copper sets the dose of its service, or takes a wash-out off the list. */
	heardCopper(job: PaperJob, typed: string, time?: string): void {
		const { day, jobs } = this.round;
		this.answer(job, `${figure(Number(typed), 3)} mg/L`, time);
		if (job.key.startsWith('wash/')) return this.#heardWash(job, typed);
		const kept = isChangeDay(day, spans) ? 1 - this.tank.share : 1;
		job.verdict = [copperVerdict(typed, this.tank, kept)];
		const level = Number(typed);
		// what was forecast gives way to what was read
		this.round.above.splice(0, Infinity, ...(level < 0.15 && day > 7 ? [fallen(day, level)] : []));
		const key = `copper/dose/${day - 2}`;
		const known = jobs.findIndex((one) => one.key === key);
		this.put(copperDose(key, this.tank, [level, level], kept), known);
	}

	/** Puts a dose in its place, after the tests and the change and before what else is given. */
	put(dose: PaperJob | null, known: number): void {
		const { jobs } = this.round;
		if (known >= 0) jobs.splice(known, 1);
		if (!dose) return;
		const before = jobs.findIndex((one) => one.key.startsWith('flukes/'));
		jobs.splice(known >= 0 ? known : before >= 0 ? before : jobs.length, 0, dose);
	}

	#heardWash(job: PaperJob, typed: string): void {
		job.verdict = [washVerdict(typed)];
		const goesOn = Number(typed) > clear;
		// carbon stays in as long as there is something to wash out
		const falls = goesOn ? /\/equipment\/[2-9]/ : /\/washout\//;
		const n = this.round.day - 37;
		const left = this.round.jobs.filter(({ key }) => !falls.test(key));
		const comes = goesOn && left.length === 1 ? [changeJob(`wash/washout/${n}`, this.tank)] : [];
		this.round.jobs.splice(0, Infinity, ...left, ...comes);
	}

	#watchChanges = () =>
		changesOf({
			tanMg: this.tank.tanMg,
			tanMgPerDay: this.tank.tanMgPerDay,
			litres: this.tank.litres,
			from: spans.watch[0],
			to: spans.watch[1],
			changed: this.#changed
		});

	/** A forecast that falls under the floor today is said above the jobs, once the level has been up there. */
	#lowForecast(day: number): Part[] {
		if (day < 7 || day > spans.copper[1]) return [];
		const { loss } = this.tank;
		const forecast = loss.forecastAt(day);
		const isNew = this.tank.copperUnreadDays() === 1 || loss.forecastAt(day - 1) >= 0.15;
		return forecast < 0.15 && isNew ? [fallen(day, forecast)] : [];
	}
}
