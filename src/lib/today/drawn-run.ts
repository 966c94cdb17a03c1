import type { SentEntry } from './index.ts';

/** mulberry32, a public-domain generator of 32 bits: the same numbers for the same seed. */
export function drawn(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state + 0x6d2b79f5) | 0;
		let t = Math.imul(state ^ (state >>> 15), state | 1);
		t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
}

/** The n-th day of February 2027. */
export const day = (n: number) => new Date(Date.UTC(2027, 1, n)).toISOString().slice(0, 10);

interface Drawn {
	/** litres */
	net: number;
	timeZone?: string;
	/** water is changed every other day */
	changes?: boolean;
}

/** Copper from 2 February, two steps to 0.18 mg/L, its loss the published range. */
export const drawnDocument = (
	{ net, timeZone = 'UTC', changes = false }: Drawn,
	log: readonly SentEntry[]
) => ({
	format: 'lazaret-plan/1',
	id: 'q',
	name: 'Drawn',
	timeZone,
	service: '08:00',
	tank: { name: 'Q', net: `${net} L`, temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	source: { ammonia: '0 mg/L', nitrate: '2 mg/L', salinity: '34 ppt' },
	lots: [
		{
			id: 'a',
			what: 'cardinalfish',
			group: 'cardinalfish',
			count: 3,
			feed: '0.3 g/d',
			protein: 0.09,
			arrived: day(1)
		}
	],
	medicines: [{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' }],
	phases: [
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: `on ${day(2)}`,
			lasts: '28 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 2 d',
			test: 'Cu daily',
			...(changes ? { change: '20% every 2 d' } : {})
		},
		{ id: 'watch', kind: 'observe', starts: 'after copper', lasts: '14 d' }
	],
	log
});
