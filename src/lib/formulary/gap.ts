import { read, unreadable, type Read } from '../units/index.ts';
import { cite } from './citations.ts';
import type { GapBounds } from './row.ts';
import { unsourced } from './sourced.ts';
import type { Target } from './vocabulary.ts';

interface Bound {
	temperatureC: number;
	days: number;
	source: string;
}

interface FlukeBounds {
	/** after the last egg laid before the first dose has hatched */
	earliest: readonly Bound[];
	/** before the first worm hatched after the first dose lays */
	latest: readonly Bound[];
}

const derived = `${unsourced.J}; drawn between hatching at 28 and at 14 °C in ${cite.ernst2005}, last eggs a day later`;

/** Colder than 25 °C the hatching times are drawn between published ones, to the nearest day; under 20 °C nobody is asked to guess. */
const neobenedenia: FlukeBounds = {
	earliest: [
		{ temperatureC: 20, days: 11, source: derived },
		{ temperatureC: 22, days: 9, source: derived },
		{ temperatureC: 24, days: 8, source: derived },
		{ temperatureC: 25, days: 6, source: cite.girellae1995 },
		{ temperatureC: 32, days: 6, source: cite.girellae1995 }
	],
	latest: [
		{ temperatureC: 20, days: 15, source: cite.brazenor2015 },
		{ temperatureC: 24, days: 15, source: cite.brazenor2015 },
		{ temperatureC: 25, days: 15, source: cite.girellae1995 },
		{ temperatureC: 26, days: 10, source: cite.brazenor2015 },
		{ temperatureC: 32, days: 10, source: cite.brazenor2015 }
	]
};

/** No laying age of Benedenia is at hand: the bound of Neobenedenia stands in. */
const benedenia: FlukeBounds = {
	earliest: [
		{ temperatureC: 20, days: 11, source: derived },
		{ temperatureC: 22, days: 9, source: derived },
		{ temperatureC: 24, days: 8, source: derived },
		{ temperatureC: 25, days: 7, source: derived },
		{ temperatureC: 32, days: 7, source: derived }
	],
	latest: neobenedenia.latest
};

const flukeBounds: Partial<Record<Target, FlukeBounds>> = {
	neobenedenia,
	benedenia,
	flukes: {
		earliest: benedenia.earliest,
		latest: neobenedenia.latest
	}
};

const usualGapDays = 7;

/**
 * When the second dose against a parasite may fall, in days after the first. Worms of skin and gills follow
 * temperature (20 to 32 °C; between two listed temperatures the stricter bound holds), roundworms do not.
 * A problem outside that range, and for targets that no second dose is timed by.
 */
export function gapBounds(target: Target, temperatureC: number): Read<GapBounds> {
	if (target === 'worms') return read(roundworms);
	const bounds = flukeBounds[target];
	if (!bounds) return unreadable('gap-target', target, 'flukes, neobenedenia, benedenia or worms');
	if (!(temperatureC >= 20 && temperatureC <= 32)) {
		const expected = 'water of 20 to 32 °C: outside it eggs keep no published timetable, ask a veterinarian';
		return unreadable('gap-temperature', `${temperatureC} °C`, expected);
	}
	const earliest = stricter(bounds.earliest, temperatureC, Math.max);
	const latest = stricter(bounds.latest, temperatureC, Math.min);
	return read({
		earliestDays: earliest.days,
		latestDays: latest.days,
		proposedDays: Math.max(usualGapDays, earliest.days),
		because: `at ${temperatureC} °C the last eggs have hatched by day ${earliest.days}, and new worms may lay from day ${latest.days}`,
		source: earliest.source === latest.source ? earliest.source : `${earliest.source}; ${latest.source}`
	});
}

const roundworms: GapBounds = {
	earliestDays: 14,
	latestDays: 22,
	proposedDays: 14,
	because: 'roundworms that were eggs at the first dose are in the gut after 2 to 3 weeks',
	source: cite.ufNematode
};

/** The stricter of the rows just below and just above; a listed temperature answers for itself. */
function stricter(rows: readonly Bound[], temperatureC: number, pick: (...days: number[]) => number): Bound {
	const below = rows.findLast((row) => row.temperatureC <= temperatureC);
	const above = rows.find((row) => row.temperatureC >= temperatureC);
	if (!below || !above) throw new Error(`no bound listed around ${temperatureC} °C`);
	return pick(below.days, above.days) === below.days ? below : above;
}
