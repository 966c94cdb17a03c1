import { defineConfig } from 'vitest/config';

/** Real calendar programs from Debian; run by `.ci/run`, not by `npm test`. */
export default defineConfig({
	test: {
		include: ['tests/clients/**/*.test.ts'],
		root: new URL('../..', import.meta.url).pathname,
		environment: 'node',
		expect: { requireAssertions: true },
		// what hangs is ended; what is only slow on a shared machine is not
		testTimeout: 300_000,
		hookTimeout: 60_000,
		// servers and a shared machine: one file at a time
		fileParallelism: false
	}
});
