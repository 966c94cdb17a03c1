import { cite } from './citations.ts';
import { judged, practice, published, remembered } from './sourced.ts';

/** How long fish stay, what ends a stay, and when to call for help. */
export const stay = {
	/** days in all, from arrival to release */
	totalDays: published(30, cite.hadfield2011, 'the least of nearly all institutions asked'),
	/** days without any sign or new medicine before release */
	cleanDays: practice(14),
	/** the display's salinity may differ by this at release, ppt */
	displayWithinPpt: practice(1),
	survey: published({ institutions: 42, percent: 95, days: 30 }, cite.hadfield2011),
	/** days a display stands without fish to starve out white spot, and what it leans on */
	emptyDisplayDays: remembered(
		76,
		'the longest cyst on record is 72 days (Colorni & Burgess 1997, second-hand); 6 to 8 weeks are common'
	)
} as const;

/** Each of these calls for a veterinarian. */
export const callVet = {
	deathsIn48Hours: practice(2),
	breathsPerMinute: practice(100),
	hoursWithoutAnswer: practice(72)
} as const;

/** A dead fish in the water: grams of nitrogen per gram of fish. */
export const carcassNitrogenShare = judged(0.7 / 25, 'about 0.7 g in a fish of 25 g');

/** Tools and emptied tanks. */
export const disinfection = {
	chlorineMgPerL: practice(200),
	minutes: practice(10),
	dryHours: practice(24),
	steps: [
		practice('Scrub off what is visible; slime shields germs from chlorine.'),
		practice('Chlorine at 200 mg/L for 10 minutes, gloves and open windows, never with acid or ammonia.'),
		practice('Rinse well and dry for 24 hours.'),
		practice('Leave no dechlorinator behind: it would disturb the next copper course.'),
		practice('Never seed a filter from a tank that held sick fish.')
	]
} as const;
