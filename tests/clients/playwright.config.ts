import { defineConfig } from '@playwright/test';
import base from '../browser/playwright.config.ts';

/** The page of calendar servers in a browser, with Debian's servers and clients behind it; run by `.ci/run`. */
export default defineConfig({
	...base,
	testDir: '.',
	outputDir: '../../test-results/clients',
	workers: 1
});
