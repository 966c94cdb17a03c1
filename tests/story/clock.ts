import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';

/** One clock for the app and the browser, set by hand: libfaketime moves the app's, Playwright the page's. */
export class Clock {
	readonly #file = join(mkdtempSync(join(tmpdir(), 'lazaret-clock-')), 'now');
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

	#write(instant: string): void {
		writeFileSync(this.#file, `${instant.slice(0, 10)} ${instant.slice(11, 19)}\n`);
	}

	/** Both clocks at an instant in UTC, `YYYY-MM-DDTHH:MM:SSZ`. */
	async set(page: Page, instant: string): Promise<void> {
		this.#write(instant);
		await page.clock.setFixedTime(instant);
	}
}
