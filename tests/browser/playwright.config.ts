import { defineConfig } from '@playwright/test';
import { findChromium } from './chromium.ts';

const { executablePath, args, env } = findChromium();

export default defineConfig({
	testDir: '.',
	testMatch: '**/*.spec.ts',
	outputDir: '../../test-results/browser',
	workers: 2,
	fullyParallel: true,
	forbidOnly: Boolean(process.env.CI),
	retries: 0,
	timeout: 240_000,
	// as long as a machine may take on which much else is going on
	expect: { timeout: 20_000 },
	reporter: 'list',
	use: {
		browserName: 'chromium',
		headless: true,
		locale: 'en-GB',
		timezoneId: 'America/Chicago',
		viewport: { width: 1440, height: 900 },
		launchOptions: { executablePath, args, env },
		trace: 'retain-on-failure'
	}
});
