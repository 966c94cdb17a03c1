import { stepOf, type Lost } from './paper-loss.ts';
import { between, figure, line, says, type Hole, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** A reading beside what was expected before it, mg/L. */
export interface Met {
	thing: 'Copper' | 'Praziquantel' | 'Ammonia' | 'Nitrate';
	value: number;
	/** as good as what was read, but for the kit's last digit, unless paper has another figure */
	expected: number;
	/** the least that may have been expected, where a reading just before it taught that something is lost */
	least?: number;
}

const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
/** From the least to the most that a figure may be in the mean, where paper knows what was expected within bounds only. */
function meanOf(all: readonly Met[], of: (off: number) => number): [number, number] {
	const ends = all.map(({ expected, least = expected, value }) =>
		[of(expected - value), of(least - value)].sort((a, b) => a - b)
	);
	return [mean(ends.map(([low = 0]) => low)), mean(ends.map(([, high = 0]) => high))];
}
const signless: Hole = { text: '±', pattern: '[+−]?', fits: () => true };

/** A mean error that leans to one side by a tenth of its size at least is said to; paper knows the kit's last digit only. */
const leaning: Hole = {
	text: 'leaning nowhere, or hardly',
	pattern: 'neither too high nor too low|\\S+ mg/L too (?:high|low) on average',
	fits: (seen) => seen.startsWith('neither') || Number(seen.split(' ')[0]) < 0.001
};

function verdictOf(thing: Met['thing'], all: readonly Met[]): Said[] {
	const own = all.filter((one) => one.thing === thing);
	if (own.length === 0) return [];
	const count = `${own.length} ${own.length === 1 ? 'reading' : 'readings'}`;
	const off = own.map(({ expected, value }) => expected - value);
	const size = meanOf(own, Math.abs);
	const bias = meanOf(own, (one) => one);
	const most = Math.max(...off.map(Math.abs));
	// off by no more than the last digit of the kit
	const near = ([low, high]: [number, number]) => between(Math.max(0, low - 0.0005), high + 0.0005, 6);
	const leans: Hole | string = bias[1] < 0.0005 ? leaning : '';
	const tail = leans === '' ? [near(bias), ' mg/L too high on average'] : [leans];
	return [
		line(`${thing}: ${count}, wrong by `, near(size), ' mg/L in the mean; ', ...tail),
		...(most > 0.0006
			? [says`+${figure(most, 3)} mg/L`, says`-${figure(most, 3)} mg/L`]
			: scale.map((one) => ({ ...one, maybe: true })))
	];
}

/** How far a line reaches up and down where readings are off by the last digit of a kit, and by nothing else. */
const scale = [says`+${between(0, 0.002, 6)} mg/L`, says`-${between(0, 0.002, 6)} mg/L`];

/** How far readings were from the forecast, all together. */
export const differenceParts = (all: readonly Met[]): Part[] => [
	{
		where: 'figure',
		says: (['Copper', 'Praziquantel', 'Ammonia', 'Nitrate'] as const).flatMap((thing) =>
			verdictOf(thing, all)
		)
	}
];

/**
 * What the readings teach: so many mg N a day at 100 for each kg, 50 to 200 (judgment, no source); of copper 0 to 10 % a
 * day may be lost (judgment, no source). A reading that is off by more than half of what was
 * expected explains nothing (judgment, no source).
 */
export function learned(all: readonly Met[], tanMgPerDay: number, lost: Lost): Said[] {
	const rate = figure(tanMgPerDay, 1);
	const fish = between(tanMgPerDay * 0.97, tanMgPerDay * 1.03, 2);
	const few = between(tanMgPerDay * 0.85, tanMgPerDay, 2);
	const many = between(tanMgPerDay, tanMgPerDay * 1.15, 2);
	const tan = all.filter(({ thing }) => thing === 'Ammonia');
	const copper = all.filter(({ thing }) => thing === 'Copper');
	const taught = copper.filter(({ expected, value }) => Math.abs(expected - value) <= expected / 2);
	const aside = copper.length - taught.length;
	// a small share of loss that the low readings taught stays in what is expected, less than a hundredth a day of 0.18
	const about = ([low, high]: [number, number]) => between(Math.max(0, low - 0.001), high + 0.001, 3);
	const bias = meanOf(taught, (one) => one);
	const percent = (perDay: number, off: number) => {
		const share = 100 * (1 - Math.exp(-perDay));
		return between(Math.max(0, share - off), Math.min(10, share + off), 3);
	};
	const central = percent(lost.loss, 0.05);
	const others = aside > 0 ? `, ${aside} more could not be explained and taught nothing` : '';
	return [
		says`${rate} mg N/d (${figure(tanMgPerDay / 2, 1)} to ${figure(tanMgPerDay * 2, 1)} mg N/d) → ${fish} mg N/d (${few} to ${many} mg N/d)`,
		says`${tan.length} readings of ammonia, ${between(0, 0.001, 3)} mg/L off the forecast (bias ${signless}${between(0, 0.001, 3)}); feed and mass give ${rate} mg N a day, the readings ${fish}; assumed: a kit that is right within 10 % and half a step of ${stepOf(tan.map(({ value }) => value))} mg/L N, feed as logged, pH and new water as stated.`,
		says`0 %/d (0 to 10 %/d) → ${central} %/d (${percent(lost.least, 0.2)} to ${percent(lost.most, 0.2)} %/d)`,
		says`${taught.length} readings of ionic copper, ${about(meanOf(taught, Math.abs))} mg/L off the forecast (bias ${bias[0] > 0.0005 ? '−' : signless}${about(bias)})${others}; 0 to 10 % a day may be lost, the readings say ${central} %; assumed: a kit that is right within 10 % and half a step of ${stepOf(copper.map(({ value }) => value))} mg/L, doses, changes and volume as logged; doses still leave room for the least loss.`
	];
}
