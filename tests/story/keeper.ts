import { expect, type Locator, type Page } from '@playwright/test';
import type { Clock } from './clock.ts';
import { at } from './dates.ts';

interface Shown {
	key: string;
	text: string;
	line: string;
	answered: boolean;
}

/** Somebody with a phone in one hand: opens pages at a moment, taps, types what the paper says. */
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

	/** Goes to a page by a link of the one that is open, as a thumb does. */
	async follow(day: number, time: string, path: string): Promise<void> {
		await this.#clock.set(this.page, at(day, time));
		await this.page.locator(`a[href="${path}"]:visible`).first().click();
		await this.page.waitForURL(`${this.#url}${path}`);
	}

	/** Opens everything on the page that is folded away. */
	async unfold(): Promise<void> {
		await this.page.evaluate(() => {
			for (const one of document.querySelectorAll('details')) one.open = true;
		});
	}

	/** Today at a moment of a day; a page that is open already is looked at again, as a phone is that wakes up. */
	async today(day: number, time = '08:05'): Promise<void> {
		const instant = at(day, time);
		const isOpen = this.page.url().endsWith('/today');
		const tab = this.page.locator('nav[aria-label="Screens"]:visible a[href="/today"]');
		if (!isOpen && (await tab.count()) > 0) await this.follow(day, time, '/today');
		else if (!isOpen) await this.open(day, time, '/today');
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

	async done(key: string): Promise<void> {
		await this.#heard(() => this.job(key).getByRole('button', { name: /^Done/ }).click());
		await this.#answered(key);
	}

	/** Types a reading as it is written on paper. */
	async read(key: string, typed: string): Promise<void> {
		const form = this.job(key).locator('form.reading');
		await form.getByRole('textbox').fill(typed);
		await this.#heard(() => form.getByRole('button', { name: 'Log', exact: true }).click());
		await this.#answered(key);
	}

	async look(key: string): Promise<void> {
		await this.job(key).getByRole('button', { name: 'Look', exact: true }).click();
		await this.#heard(() => this.page.getByRole('button', { name: 'No signs' }).click());
		await this.#answered(key);
	}

	/** Touches, and waits until the app has planned again with what was logged. */
	async #heard(touch: () => Promise<void>): Promise<void> {
		const planned = this.page.waitForResponse((response) => response.url().endsWith('/api/today'));
		await touch();
		await (await planned).finished();
	}

	#answered = (key: string): Promise<void> => expect(this.job(key)).toHaveClass(/answered/);
}
