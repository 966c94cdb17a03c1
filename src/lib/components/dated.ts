/** Days of a sentence as this keeper writes them: `26 Nov`, with the year where it is another than the one it is now. */
export function datedIn(locale: string): (sentence: string) => string {
	const format = (options: Intl.DateTimeFormatOptions) =>
		new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: 'UTC', ...options });
	const short = format({});
	const long = format({ year: 'numeric' });
	return (sentence) =>
		sentence.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => {
			const noon = Date.parse(`${day}T12:00:00Z`);
			// what somebody typed may look like a day and be none
			if (Number.isNaN(noon)) return day;
			return (day.startsWith(String(new Date().getFullYear())) ? short : long).format(noon);
		});
}
