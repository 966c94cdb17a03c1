import { defineConfig } from '@playwright/test';
import base from '../browser/playwright.config.ts';

export default defineConfig({
	...base,
	testDir: '.',
	outputDir: '../../test-results/story',
	workers: 1,
	// seven weeks of a tank, tapped through
	timeout: 600_000
});
