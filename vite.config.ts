import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
	plugins: [sveltekit()],
	// rrule is UMD to Node: left external, the built server cannot import its names.
	ssr: { noExternal: ['rrule'] },
	test: {
		include: ['src/**/*.test.ts', 'tests/golden/*.test.ts'],
		environment: 'node',
		expect: { requireAssertions: true }
	}
});
