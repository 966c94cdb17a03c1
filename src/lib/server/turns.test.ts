import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inTurn, type Turns } from './turns.ts';

test('law: what is shared was begun after it was asked for, one at a time, and nobody waits for a third', async () => {
	await fc.assert(
		fc.asyncProperty(
			fc.scheduler(),
			fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }),
			async (s, fails) => {
				const turns: Turns = new Map();
				let [clock, running, runs] = [0, 0, 0];
				const run = async () => {
					const begun = ++clock;
					const fail = fails[runs++ % fails.length];
					expect(++running).toBe(1);
					await s.schedule(Promise.resolve());
					running--;
					if (fail) throw new Error(String(begun));
					return begun;
				};
				const ask = async () => {
					await s.schedule(Promise.resolve());
					const asked = ++clock;
					const before = runs;
					const begun = await inTurn(turns, 'a', run).catch((error: Error) => Number(error.message));
					expect(begun).toBeGreaterThan(asked);
					expect(runs - before).toBeLessThanOrEqual(2);
				};
				const all = Promise.all(fails.map(ask));
				await s.waitFor(all);
				expect(turns.size).toBe(0);
			}
		),
		{ seed: 9, numRuns: 200 }
	);
});

test('kinds do not wait for each other', async () => {
	const turns: Turns = new Map();
	const { promise, resolve } = Promise.withResolvers<string>();
	const slow = inTurn(turns, 'a', () => promise);
	expect(await inTurn(turns, 'b', async () => 'b')).toBe('b');
	resolve('a');
	expect(await slow).toBe('a');
});
