import { datedIn } from './dated';

/** How the page of the day writes days and times, for one locale. */
export interface TodayWords {
	/** `Monday, 7 December` */
	day: (date: string) => string;
	/** `Sun 6 Dec` */
	short: (date: string) => string;
	/** every `2026-12-06` in a sentence as `6 Dec` */
	dated: (sentence: string) => string;
	/** `07:52` in a zone */
	time: (at: string, zone: string) => string;
}

/** One set of formatters for a page. */
export function todayWords(locale: string): TodayWords {
	const noon = (date: string) => new Date(`${date}T12:00:00Z`);
	const long = new Intl.DateTimeFormat(locale, {
		weekday: 'long',
		day: 'numeric',
		month: 'long',
		timeZone: 'UTC'
	});
	const short = new Intl.DateTimeFormat(locale, {
		weekday: 'short',
		day: 'numeric',
		month: 'short',
		timeZone: 'UTC'
	});
	const clocks = new Map<string, Intl.DateTimeFormat>();
	const clock = (zone: string) => {
		const known = clocks.get(zone) ?? clockOf(locale, zone);
		clocks.set(zone, known);
		return known;
	};
	return {
		day: (date) => long.format(noon(date)),
		short: (date) => short.format(noon(date)),
		dated: datedIn(locale),
		time: (at, zone) => clock(zone).format(new Date(at))
	};
}

const clockOf = (locale: string, timeZone: string) =>
	new Intl.DateTimeFormat(locale, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23', timeZone });
