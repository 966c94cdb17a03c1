/** Winter in Chicago is six hours behind UTC. Day 0 is 30 November 2026. */
export const at = (day: number, time = '08:05'): string => {
	const [hours = 0, minutes = 0] = time.split(':').map(Number);
	return utc(day, hours * 60 + minutes);
};

/** So many minutes after midnight of a day in Chicago. */
export const utc = (day: number, minutes: number): string =>
	`${new Date(Date.UTC(2026, 10, 30 + day, 6, minutes)).toISOString().slice(0, 19)}Z`;

const weekdays = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** Day of the month, its name, and the year: thirty days from 30 November make one of November and 31 of December. */
function calendar(day: number): { date: number; month: string; year: number } {
	if (day < 1) return { date: 30 + day, month: 'November', year: 2026 };
	if (day < 32) return { date: day, month: 'December', year: 2026 };
	if (day < 63) return { date: day - 31, month: 'January', year: 2027 };
	return { date: day - 62, month: 'February', year: 2027 };
}

/** Day 0 is a Monday. */
export const weekday = (day: number): string => weekdays[((day % 7) + 7) % 7] ?? '';

/** A day as the screens write it: `7 Dec`. */
export const dated = (day: number): string => {
	const { date, month } = calendar(day);
	return `${date} ${month.slice(0, 3)}`;
};

/** The same with the year, once it is another than that of day 0: `2 Jan 2027`. */
export const datedFar = (day: number): string => {
	const { year } = calendar(day);
	return year === 2026 ? dated(day) : `${dated(day)} ${year}`;
};

/** The same on a screen that is looked at on a day: with the year when it is another than that day's. */
export const datedOn = (day: number, today: number): string => {
	const { year } = calendar(day);
	return year === calendar(today).year ? dated(day) : `${dated(day)} ${year}`;
};

/** `Mon 7 Dec` */
export const shortDay = (day: number): string => `${weekday(day).slice(0, 3)} ${dated(day)}`;

/** `Monday 7 December` */
export const longDay = (day: number): string => {
	const { date, month } = calendar(day);
	return `${weekday(day)} ${date} ${month}`;
};

/** `Monday, 7 December 2026` */
export const fullDay = (day: number): string => {
	const { date, month, year } = calendar(day);
	return `${weekday(day)}, ${date} ${month} ${year}`;
};

/** `2026-12-07` */
export const isoDay = (day: number): string => at(day, '12:00').slice(0, 10);
