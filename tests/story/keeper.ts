import { expect, type Locator, type Page } from '@playwright/test';
import type { Clock } from './clock.ts';
import type { HandTank } from './hand-tank.ts';

/** Winter in Chicago is six hours behind UTC. Day 0 is 30 November 2026. */
export const at = (day: number, time = '08:05'): string => {
	const [hours = 0, minutes = 0] = time.split(':').map(Number);
	return `${new Date(Date.UTC(2026, 10, 30 + day, hours + 6, minutes)).toISOString().slice(0, 19)}Z`;
};

/** A day as the screens write it: `7 Dec`. */
export const dated = (day: number): string =>
	new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' }).format(
		new Date(at(day, '12:00'))
	);

interface Shown {
	key: string;
	text: string;
	line: string;
	answered: boolean;
}

/** Somebody with a phone in one hand: opens pages at a moment, taps through the jobs, types what the paper says. */
export class Keeper {
	readonly page: Page;
	readonly #url: string;
	readonly #clock: Clock;

	constructor(page: Page, url: string, clock: Clock) {
		this.page = page;
		this.#url = url;
		this.#clock = clock;
	}

	async open(day: number, time: string, path: string): Promise<void> {
		await this.#clock.set(this.page, at(day, time));
		await this.page.goto(`${this.#url}${path}`);
		await this.page.locator('html[data-hydrated]').waitFor();
	}

	/** Today at a moment of a day; a page that is open already is looked at again, as a phone is that wakes up. */
	async today(day: number, time = '08:05'): Promise<void> {
		const instant = at(day, time);
		const isOpen = this.page.url().endsWith('/today');
		if (!isOpen) await this.open(day, time, '/today');
		else {
			await this.#clock.set(this.page, instant);
			await this.page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
		}
		const kept = () => this.page.evaluate(() => localStorage.getItem('lazaret-round') ?? '{}');
		await expect
			.poll(async () => (JSON.parse(await kept()) as { now?: string }).now ?? '')
			.toMatch(new RegExp(`^${instant.slice(0, 16)}`));
	}

	/** The jobs of the day as they stand, in working order. */
	shown = (): Promise<Shown[]> =>
		this.page.locator('li.job').evaluateAll((all) =>
			all.map((one) => ({
				key: (one as HTMLElement).dataset.task ?? '',
				text: (one.querySelector('.text')?.textContent ?? '').trim(),
				line: (one.querySelector('.line')?.textContent ?? '').trim(),
				answered: one.classList.contains('answered')
			}))
		);

	job = (key: string): Locator => this.page.locator(`li.job[data-task="${key}"]`);

	/** What a job of the day says it takes. */
	says = (key: string): Locator => this.job(key).locator('.text');

	async done(key: string): Promise<void> {
		await this.job(key).getByRole('button', { name: /^Done/ }).click();
		await this.#answered(key);
	}

	async read(key: string, value: number): Promise<void> {
		const form = this.job(key).locator('form.reading');
		await form.getByRole('textbox').fill(value.toFixed(3));
		await form.getByRole('button', { name: 'Log', exact: true }).click();
		await this.#answered(key);
	}

	async look(key: string): Promise<void> {
		await this.job(key).getByRole('button', { name: 'Look', exact: true }).click();
		await this.page.getByRole('button', { name: 'No signs' }).click();
		await this.#answered(key);
	}

	#answered = (key: string): Promise<void> => expect(this.job(key)).toHaveClass(/answered/);

	/**
	 * The jobs of the open day from the first that waits to the last. Kits show what the tank of paper holds; what a
	 * change or a dose says is held against it before it is done. `until` names a job to stop at.
	 */
	async work(tank: HandTank, until = /^$/): Promise<void> {
		for (;;) {
			const next = (await this.shown()).find(({ answered }) => !answered);
			if (!next || until.test(next.key)) return;
			await this.#do(next, tank);
		}
	}

	async #do({ key, text, line }: Shown, tank: HandTank): Promise<void> {
		if (text.startsWith('Test')) return this.#test(key, text, line, tank);
		if (text.startsWith('Look')) return this.look(key);
		if (/^(Change|Wash out) /.test(text)) {
			const verb = key.includes('/washout/') ? 'Wash out' : 'Change';
			// the kit shows none: nothing is left to wash out
			if (verb === 'Wash out' && tank.copperMgPerL() <= 0.02) return expect(this.job(key)).toHaveCount(0);
			if (key.startsWith('watch/')) tank.share = this.#allowed(text, tank);
			await expect.soft(this.says(key)).toHaveText(`${verb} ${tank.changeL()} L`);
			tank.change(tank.changeL());
		} else if (text.startsWith('Ionic copper')) {
			const mL = tank.topUpMl();
			// what the reading leaves nothing to give for is taken off the list
			if (mL === 0) return expect(this.job(key)).toHaveCount(0);
			await expect.soft(this.says(key)).toHaveText(`Ionic copper ${mL.toFixed(1)} mL`);
			tank.giveCopper(mL);
		} else if (text.startsWith('Praziquantel')) {
			// a wide margin: the full 2.5 mg/L each time, whatever is left
			await expect.soft(this.says(key)).toHaveText(`Praziquantel ${2.5 * tank.litres} mg`);
		}
		return this.done(key);
	}

	/** Changes of the watch are the app's to choose: at the latest when a fiftieth of a mg/L is toxic, a fifth to a half of the water. */
	#allowed(text: string, tank: HandTank): number {
		const share = Number.parseFloat(text.replace('Change ', '')) / tank.litres;
		expect.soft(tank.toxicMgNPerL()).toBeLessThanOrEqual(0.02);
		expect.soft(share).toBeGreaterThanOrEqual(0.2);
		expect.soft(share).toBeLessThanOrEqual(0.5);
		return share;
	}

	#test(key: string, text: string, line: string, tank: HandTank): Promise<void> {
		const forecast = Number(/Forecast ([\d.]+)/.exec(line)?.[1]);
		if (text.startsWith('Test copper')) {
			const [least, most] = tank.copperBand();
			expect.soft(forecast, `${key}: ${line}`).toBeGreaterThan(least - 0.001);
			expect.soft(forecast, `${key}: ${line}`).toBeLessThan(most + 0.001);
			return this.read(key, tank.kitCopperMgPerL());
		}
		if (text.startsWith('Test ammonia')) {
			expect.soft(Math.abs(forecast - tank.tanMgPerL()), `${key}: ${line}`).toBeLessThan(0.002);
			const toxic = Number(/([\d.]+) NH3-N/.exec(line)?.[1]);
			expect.soft(Math.abs(toxic - tank.toxicMgNPerL()), `${key}: ${line}`).toBeLessThan(0.0011);
			return this.read(key, tank.tanMgPerL());
		}
		// no filter turns ammonia into nitrate
		return this.read(key, 0);
	}
}
