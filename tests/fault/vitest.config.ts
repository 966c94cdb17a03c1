import { defineConfig } from 'vitest/config';

/** Breaks things around the built app; run by `.ci/run` and `npm run faults`, not by `npm test`. */
export default defineConfig({
	test: {
		include: ['tests/fault/**/*.test.ts'],
		root: new URL('../..', import.meta.url).pathname,
		environment: 'node',
		expect: { requireAssertions: true },
		testTimeout: 900_000,
		fileParallelism: false
	}
});
