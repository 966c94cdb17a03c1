const names = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
const shortNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** ISO number (1 Monday) of a weekday's name, whole or cut to three letters or more; null if it is none. */
export function weekdayNamed(word: string): number | null {
	const wanted = word.toLowerCase().replace(/\.$/, '').replace(/days$/, 'day');
	if (wanted.length < 3) return null;
	const index = names.findIndex((name) => name.startsWith(wanted));
	return index < 0 ? null : index + 1;
}

/** `Mon, Thu` or `Monday and Thursday`, as ascending ISO numbers; null if a word is no weekday. */
export function readWeekdays(text: string): number[] | null {
	const numbers = new Set<number>();
	for (const word of text.split(/ ?[,;/&+] ?| and | /i)) {
		const number = weekdayNamed(word);
		if (number === null) return null;
		numbers.add(number);
	}
	return [...numbers].sort((a, b) => a - b);
}

export const printWeekdays = (weekdays: readonly number[]): string =>
	weekdays.map((weekday) => shortNames[weekday - 1]).join(', ');
