import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';

/** One clock for the app and the browser, set by hand: libfaketime moves the app's, Playwright the page's. */
export class Clock {
	readonly #file = join(mkdtempSync(join(tmpdir(), 'lazaret-clock-')), 'now');
	readonly #installed = new WeakSet<Page>();
	/** what the app has to be started with */
	readonly env: Record<string, string>;

	constructor(instant: string) {
		const find = 'ls /usr/lib/*/faketime/libfaketime.so.1';
		const library = execFileSync('bash', ['-c', find], { encoding: 'utf8' }).trim();
		this.#write(instant);
		this.env = {
			LD_PRELOAD: library,
			FAKETIME_TIMESTAMP_FILE: this.#file,
			FAKETIME_NO_CACHE: '1',
			FAKETIME_DONT_FAKE_MONOTONIC: '1',
			LAZARET_BACKUPS: '0',
			TZ: 'UTC'
		};
	}

	/** Time goes on from there: of two facts logged one after the other the first is the earlier. */
	#write(instant: string): void {
		const seconds = Math.round((Date.parse(instant) - Date.now()) / 1000);
		writeFileSync(this.#file, `${seconds < 0 ? '' : '+'}${seconds}s\n`);
	}

	/** Both clocks at an instant in UTC, `YYYY-MM-DDTHH:MM:SSZ`; the app's a breath ahead, so that it knows what the page logs. */
	async set(page: Page, instant: string): Promise<void> {
		this.#write(new Date(Date.parse(instant) + 2000).toISOString());
		const aheadMs = Date.parse(instant) - Date.now();
		if (!this.#installed.has(page)) await page.addInitScript(runAhead, aheadMs);
		else await page.evaluate((ms) => localStorage.setItem('story-ahead', String(ms)), aheadMs);
		this.#installed.add(page);
	}
}

/**
 * Runs in the page before anything else: its Date is ahead by what was set last. Timers keep their own time: a clock
 * that jumps a day would let a look at every minute happen 1440 times.
 */
function runAhead(firstMs: number): void {
	const Real = Date;
	const now = () => Real.now() + Number(localStorage.getItem('story-ahead') ?? firstMs);
	window.Date = class extends Real {
		constructor(given: number | string | Date = now()) {
			super(given);
		}
		static override now = now;
	} as DateConstructor;
}
