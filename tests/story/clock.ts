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
		if (this.#installed.has(page)) await page.clock.setSystemTime(instant);
		else await page.clock.install({ time: instant });
		this.#installed.add(page);
	}
}
