import { expect, test } from 'vitest';
import { terminal } from './terminal.ts';

const { lazaret } = terminal();

test('help names every verb and gives examples', () => {
	const { exit, out, say } = lazaret(['--help']);
	expect([exit, say]).toEqual([0, '']);
	for (const verb of ['plan', 'check', 'water', 'backup', 'restore', 'export', 'import'])
		expect(out).toContain(`  ${verb} `);
	expect(out).toContain('npm run -s lazaret -- plan autumn.json');
	expect(lazaret(['plan', '--help']).out).toBe(out);
});
