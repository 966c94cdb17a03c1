import { read, unreadable, type Read } from '../units/index.ts';

/** Where the curve of an exponential is lost in a double's last bit, the straight line is exact. */
const negligible = 1e-16;

/** First-order rate, 1/day, of a half-life in days; no half-life, no loss. */
export const lossPerDay = (halfLifeDays: number | null): number =>
	halfLifeDays === null ? 0 : Math.LN2 / halfLifeDays;

/** What is left of a level after some days at a first-order rate. */
export const decayed = (level: number, perDay: number, days: number): number =>
	level * Math.exp(-perDay * days);

/** Days until a level has fallen to a target at a first-order rate; a problem if it never does. */
export function daysToDecay(from: number, to: number, perDay: number): Read<number> {
	if (from <= to) return read(0);
	if (!(perDay > 0) || !(to > 0))
		return unreadable('never', String(to), 'a target above zero and a loss above zero');
	return read(Math.log(from / to) / perDay);
}

/**
 * Level after some days of constant input and first-order removal: dC/dt = input - k C.
 * `inputPerDay` is in the level's unit per day; k covers decay, dripping and clearance (L/day over L) together.
 */
export function withInput(level: number, inputPerDay: number, perDay: number, days: number): number {
	const gone = -Math.expm1(-perDay * days);
	const made = perDay * days < negligible ? inputPerDay * days : (inputPerDay * gone) / perDay;
	return level * (1 - gone) + made;
}

/** The level that input and removal settle at; null without removal. */
export const settlesAt = (inputPerDay: number, perDay: number): number | null =>
	perDay > 0 ? inputPerDay / perDay : null;

/** Days until constant input lifts a level to a limit; null if it settles below it. */
export function daysToReach(
	level: number,
	limit: number,
	inputPerDay: number,
	perDay: number
): number | null {
	if (level >= limit) return 0;
	if (!(inputPerDay > limit * perDay)) return null;
	const atFirstRate = (limit - level) / (inputPerDay - perDay * level);
	const bent = perDay * atFirstRate;
	return bent < negligible ? atFirstRate : -Math.log1p(-bent) / perDay;
}

/**
 * Level just after the change on day n, when each day adds `inputPerDay` and then a fraction is changed for water
 * without any: a (1-f) (1 - (1-f)^n) / f + level (1-f)^n.
 */
export function withDailyChanges(level: number, inputPerDay: number, fraction: number, days: number): number {
	const kept = 1 - fraction;
	const series = fraction === 0 ? days : (kept * (1 - kept ** days)) / fraction;
	return level * kept ** days + inputPerDay * series;
}

/** Where `withDailyChanges` ends after many days; null without changes. */
export const dailyChangesSettleAt = (inputPerDay: number, fraction: number): number | null =>
	fraction > 0 ? (inputPerDay * (1 - fraction)) / fraction : null;

/** Levels rise as water evaporates: C V0 / (V0 - e t). A problem once the tank would be dry. */
export function afterEvaporation(
	level: number,
	volumeL: number,
	evaporatesLPerDay: number,
	days: number
): Read<number> {
	const left = volumeL - evaporatesLPerDay * days;
	if (!(left > 0))
		return unreadable(
			'dry',
			`${evaporatesLPerDay} L/d for ${days} d`,
			`less than the ${volumeL} L in the tank`
		);
	return read((level * volumeL) / left);
}

/** Ammonia made from feed, mg N/day: feed (g) x protein share x mg N per g of protein. Timmons and Ebeling: 92 (from memory). */
export const tanFromFeedMgPerDay = (feedGPerDay: number, proteinShare: number, mgNPerGProtein = 92): number =>
	feedGPerDay * proteinShare * mgNPerGProtein;
