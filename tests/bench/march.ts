/**
 * How long a plan takes, warm: `npm run bench`. Prints figures, asserts nothing; machines are shared and noisy, so
 * read the ratios.
 */
import { exampleDocument, exampleNow, exampleWith, runOf } from '../../src/lib/planner/example.ts';
import { plan } from '../../src/lib/planner/index.ts';

/** Best of five rounds of a tenth of a second each, after as long a warm-up. */
function msPerCall(call: () => unknown): number {
	const round = (ms: number) => {
		const began = performance.now();
		let calls = 0;
		for (; performance.now() - began < ms; calls++) call();
		return (performance.now() - began) / calls;
	};
	round(300);
	return Math.min(...Array.from({ length: 5 }, () => round(100)));
}

const forDays = (days: number) => {
	const watch = days - 38;
	return runOf(exampleWith({}, { watch: { lasts: `${watch} d` } }));
};
const manyPhases = (n: number) => {
	const rows = Array.from({ length: n }, (_, i) => ({
		id: `watch-${i}`,
		kind: 'observe',
		starts: i === 0 ? 'on 2026-11-27' : `after watch-${i - 1}`,
		lasts: '2 d',
		change: 'auto',
		test: 'NH3 daily'
	}));
	return runOf({ ...exampleDocument, phases: rows });
};
const crowded = runOf(
	exampleWith({
		tank: { ...exampleDocument.tank, filterClears: 'none' },
		lots: [{ ...exampleDocument.lots[0], feed: '3 g/d' }]
	})
);

const base = forDays(45);
const reference = msPerCall(() => plan(base, exampleNow));
const print = (name: string, ms: number) =>
	console.log(`${name.padEnd(44)} ${ms.toFixed(2)} ms   x ${(ms / reference).toFixed(2)}`);
print('45 days, six phases, automatic changes', reference);
for (const days of [90, 180, 360])
	print(
		`${days} days, six phases`,
		msPerCall(() => plan(forDays(days), exampleNow))
	);
for (const phases of [20, 50, 100])
	print(
		`${phases} phases of two days`,
		msPerCall(() => plan(manyPhases(phases), exampleNow))
	);
print(
	'45 days, a change nearly every day',
	msPerCall(() => plan(crowded, exampleNow))
);
