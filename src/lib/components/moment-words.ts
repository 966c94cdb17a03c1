/** An instant as this keeper writes it, in the time zone of the machine that renders it: `25 Nov 2026, 19:40 UTC`. */
export function momentWords(locale: string): (instant: string) => string {
	const format = new Intl.DateTimeFormat(locale, {
		dateStyle: 'medium',
		timeStyle: 'short',
		timeZone: 'UTC'
	});
	return (instant) => {
		const date = new Date(instant);
		return Number.isNaN(date.getTime()) ? instant : `${format.format(date)} UTC`;
	};
}

/** An instant of these days in the zone of a run: `25 Nov, 19:40`. */
export function momentIn(locale: string, timeZone: string): (instant: string) => string {
	const format = new Intl.DateTimeFormat(locale, {
		day: 'numeric',
		month: 'short',
		hour: '2-digit',
		minute: '2-digit',
		timeZone
	});
	return (instant) => format.format(new Date(instant));
}
