import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, runOf } from './example.ts';
import { plan } from './index.ts';

const DAYS = 9;

interface Small {
	volumeL: number;
	/** feed in tenths of a gram a day */
	feed: number;
	clears: number;
	nitrateLimit: number;
	away: number[];
}

const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);

/** Nine days of one tank whose changes plan themselves. */
const documentOf = ({ volumeL, feed, clears, nitrateLimit, away }: Small) => ({
	...exampleDocument,
	timeZone: 'UTC',
	tank: { ...exampleDocument.tank, net: `${volumeL} L`, filterClears: `${clears} L/d` },
	limits: { nh3: '0.02 mg/L', nitrate: `${nitrateLimit} mg/L` },
	lots: [{ ...exampleDocument.lots[0], mass: '1 g', feed: `${feed / 10} g/d` }],
	medicines: [],
	phases: [{ id: 'wait', kind: 'observe', starts: `on ${day(0)}`, lasts: `${DAYS} d`, change: 'auto' }],
	away: away.map(day)
});

interface Best {
	days: number[];
	sum: number;
}

/**
 * Every schedule there is, by brute force, with dynamics written here: TAN clears by Q/V and the nitrogen turns up as
 * nitrate, 62.004/14.007 mg per mg. First schedule found per count is improved by litres, then by later days.
 */
function exhaustive(small: Small, share: number): Best | null {
	const { volumeL, feed, clears, nitrateLimit, away } = small;
	const made = ((feed / 10) * 0.09 * 92) / volumeL;
	const k = clears / volumeL;
	const next = (tan: number) => (k === 0 ? tan + made : made / k + (tan - made / k) * Math.exp(-k));
	let best: Best | null = null;
	const search = (
		at: number,
		tan: number,
		no3: number,
		last: number,
		left: number,
		days: number[],
		sum: number
	) => {
		if (at > 0 && (tan * share > 0.02 || no3 > nitrateLimit || at - last > 7)) return;
		if (best && sum > best.sum) return;
		if (at === DAYS - 1) {
			if (left > 0) return;
			const later =
				best &&
				sum === best.sum &&
				days.some(
					(d, i) => d > (best?.days[i] ?? 0) && days.slice(0, i).every((e, j) => e === best?.days[j])
				);
			if (!best || sum < best.sum || later) best = { days, sum };
			return;
		}
		const go = (t: number, n: number, l: number, rest: number, ds: number[], s: number) => {
			const then = next(t);
			search(at + 1, then, n + 4.4266 * (t + made - then), l, rest, ds, s);
		};
		go(tan, no3, last, left, days, sum);
		if (left === 0 || away.includes(at)) return;
		for (let percent = 20; percent <= 50; percent++) {
			const kept = 1 - percent / 100;
			go(tan * kept, no3 * kept + 5 * (1 - kept), at, left - 1, [...days, at], sum + percent);
		}
	};
	for (let n = 0; n <= 3 && !best; n++) search(0, 0, 5, 0, n, [], 0);
	return best;
}

describe('automatic changes', () => {
	it('are the fewest, then of the fewest litres, then the latest, as trying every schedule shows', () => {
		const small = fc.record({
			volumeL: fc.integer({ min: 60, max: 200 }),
			feed: fc.integer({ min: 4, max: 14 }),
			clears: fc.constantFrom(0, 0, 10, 40),
			nitrateLimit: fc.constantFrom(6, 8, 10, 20),
			away: fc.uniqueArray(fc.integer({ min: 1, max: DAYS - 2 }), { maxLength: 2 })
		});
		let compared = 0;
		fc.assert(
			fc.property(small, (one) => {
				const result = plan(runOf(documentOf(one)), exampleNow);
				const sample = result.levels[2];
				const best = exhaustive(one, (sample?.nh3MgNPerL ?? 0) / (sample?.tanMgNPerL ?? 1));
				if (!best) return;
				compared++;
				const made = result.tasks.filter(({ kind }) => kind === 'change');
				expect(made.length).toBe(best.days.length);
				expect(Math.round(made.reduce((sum, { fraction }) => sum + 100 * (fraction ?? 0), 0))).toBe(best.sum);
				expect(made.map(({ date }) => date)).toEqual(best.days.map(day));
			}),
			{ seed: 11, numRuns: 60 }
		);
		expect(compared).toBeGreaterThan(30);
	});

	it('hold what can be held in a tank that is too small, and never pause', () => {
		const result = plan(
			runOf({ ...documentOf({ volumeL: 40, feed: 60, clears: 0, nitrateLimit: 20, away: [] }) }),
			exampleNow
		);
		const made = result.tasks.filter(({ kind }) => kind === 'change');
		expect(made.every(({ fraction }) => fraction === 0.5)).toBe(true);
		expect(made.length).toBe(DAYS - 2);
	});

	it('are made while a dose acts only when NH3-N would pass 0.05, and the lost share is dosed again', () => {
		const heavy = (feed: string) =>
			plan(
				runOf({
					...exampleDocument,
					tank: { ...exampleDocument.tank, filterClears: '0 L/d' },
					lots: [{ ...exampleDocument.lots[0], feed }],
					phases: [
						{ id: 'settle', kind: 'observe', starts: 'on 2026-11-27', lasts: '12 d', change: 'auto' },
						{
							id: 'flukes',
							kind: 'pulse',
							medicine: 'pz',
							starts: 'with settle + 3 d',
							lasts: '2 doses',
							level: '2.5 mg/L',
							repeat: 'every 7 d'
						}
					],
					away: []
				}),
				exampleNow
			);
		const onContact = (feed: string) =>
			heavy(feed).tasks.filter(({ date, kind }) => date === '2026-12-01' && kind !== 'test');
		expect(onContact('2 g/d')).toEqual([]);
		const forced = onContact('9 g/d');
		expect(forced.map(({ kind }) => kind)).toEqual(['change', 'dose']);
		expect(forced[1]).toMatchObject({ id: 'flukes/dose/1.2', amount: { unit: 'mg', value: 140 } });
	});
});
