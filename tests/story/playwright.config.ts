import { defineConfig } from '@playwright/test';
import base from '../browser/playwright.config.ts';

export default defineConfig({
	...base,
	// weeks of steps would fill the disk
	use: { ...base.use, trace: 'off', actionTimeout: 60_000 },
	testDir: '.',
	outputDir: '../../test-results/story',
	workers: 1,
	// seven weeks of a tank, tapped through
	timeout: 600_000
});
