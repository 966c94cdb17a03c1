import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
	plugins: [sveltekit()],
	// rrule is UMD to Node: left external, the built server cannot import its names.
	ssr: { noExternal: ['rrule'] },
	worker: { format: 'es' },
	build: {
		rolldownOptions: {
			treeshake: {
				// no room does anything when it is read, so a page that takes one name of an index takes no more
				moduleSideEffects: [{ test: /\/src\/lib\/.*\.ts$|\/node_modules\/rrule\//, sideEffects: false }]
			}
		}
	},
	test: {
		include: ['src/**/*.test.ts', 'tests/golden/*.test.ts'],
		environment: 'node',
		// what hangs is ended; what is only slow on a shared machine is not
		testTimeout: 60_000,
		hookTimeout: 60_000,
		expect: { requireAssertions: true }
	}
});
