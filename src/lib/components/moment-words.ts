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
