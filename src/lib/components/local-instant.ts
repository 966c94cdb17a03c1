/** A moment as the log writes it, with this device's own offset: `2026-11-30T08:12:05.120-06:00`. */
export function localInstant(ms: number, offsetMinutes = -new Date(ms).getTimezoneOffset()): string {
	const sign = offsetMinutes < 0 ? '-' : '+';
	const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, '0');
	const wall = new Date(ms + offsetMinutes * 60_000).toISOString().slice(0, -1);
	return `${wall}${sign}${two(offsetMinutes / 60)}:${two(offsetMinutes % 60)}`;
}
