import { defineConfig } from '@playwright/test';
import browser from '../browser/playwright.config.ts';

/** Remakes the committed pictures from the demo data: `npm run screenshots`. */
export default defineConfig({ ...browser, testDir: '.', fullyParallel: false, workers: 1 });
