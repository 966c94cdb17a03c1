import { defineConfig } from 'vitest/config';

/** Compares with programs of Debian's; run by `.ci/run`, not by `npm test`. */
export default defineConfig({
	test: {
		include: ['tests/reference/**/*.test.ts'],
		root: new URL('../..', import.meta.url).pathname,
		environment: 'node',
		expect: { requireAssertions: true }
	}
});
