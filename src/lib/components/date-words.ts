import type { DayCell, Glyph } from '$lib/calendar';
import { datedIn } from './dated.ts';

/** How days are written for this keeper; one set of formatters for a page. */
export interface DateWords {
	weekday: (day: string) => string;
	month: (day: string) => string;
	/** `Friday, 27 November 2026` */
	long: (day: string) => string;
	/** `16 Jan` */
	short: (day: string) => string;
	/** as `short`, with its year where the day is half a year or more from another */
	near: (day: string, other: string) => string;
	/** every `2026-11-27` in a sentence as `short` writes it, with the year where it is another than this one */
	dated: (sentence: string) => string;
	span: (from: string, to: string) => string;
	week: (first: string, number: number) => string;
	/** a day and what is on it, for a screen reader */
	dayLine: (day: DayCell) => string;
	glyph: Record<Glyph, string>;
	/** short names of the seven weekdays in the order of the columns */
	weekdays: string[];
	firstWeekday: number;
}

const glyphWords: Record<Glyph, string> = {
	eye: 'Look',
	tube: 'Test',
	wave: 'Change water',
	'wave-out': 'Wash out',
	drop: 'Dose',
	salt: 'Salinity',
	bath: 'Dip',
	move: 'Move',
	plug: 'Equipment',
	fresh: 'Top off',
	crate: 'Prepare',
	food: 'Feed',
	brush: 'Clean',
	arrow: ''
};

const HALF_YEAR_MS = 183 * 86_400_000;

const noon = (day: string) => new Date(`${day}T12:00:00Z`);

/** Formatters for one locale. */
export function dateWords(locale: string, firstWeekday: number): DateWords {
	const format = (options: Intl.DateTimeFormatOptions) => {
		const formatter = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
		return (day: string) => formatter.format(noon(day));
	};
	const weekday = format({ weekday: 'short' });
	const month = format({ month: 'short' });
	const long = format({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
	const short = format({ day: 'numeric', month: 'short' });
	const withYear = format({ day: 'numeric', month: 'short', year: 'numeric' });
	const dated = datedIn(locale);
	return {
		weekday,
		month,
		long,
		short,
		dated,
		near: (day, other) =>
			Math.abs(Date.parse(day) - Date.parse(other)) < HALF_YEAR_MS ? short(day) : withYear(day),
		span: (from, to) => (from === to ? short(from) : `${short(from)} to ${short(to)}`),
		week: (first, number) => `Week ${number}, from ${short(first)}`,
		dayLine: (day) =>
			[
				long(day.day),
				day.away ? 'away' : '',
				day.chips.map((chip) => `${glyphWords[chip.glyph]} ${chip.text}`.trim()).join(', ') || 'nothing due',
				day.findings.map((finding) => `${finding.severity}: ${dated(finding.message)}`).join(' ')
			]
				.filter(Boolean)
				.join('. '),
		glyph: glyphWords,
		// 5 January 2026 was a Monday
		weekdays: Array.from({ length: 7 }, (_, at) =>
			weekday(`2026-01-${String(4 + firstWeekday + at).padStart(2, '0')}`)
		),
		firstWeekday
	};
}
