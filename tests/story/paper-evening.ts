import { dated, isoDay } from './dates.ts';
import { figure, says } from './says.ts';
import type { Part } from './sweep.ts';

/**
 * The dialog of the test of the low reading, opened once more at eight in the evening: what was read, what is typed, and
 * what it comes to: (0.18 - 0.14) x 120 L / 2 mg/mL.
 */
export const eveningPart = (morning: string, typed: string): Part => ({
	where: 'dialog',
	says: [
		says`08:05 · ${figure(Number(morning), 3)} mg/L`,
		says`: ${figure(Number(morning), 3)} mg/L`,
		says`${typed}`,
		says`${figure(Number(typed), 3)} mg/L, below 0.15, confirmed: ${(((0.18 - Number(typed)) * 120) / 2).toFixed(1)} mL to 0.18. It may have been out since 08:05 on ${dated(6)}, more than a day and two hours: the course begins again whatever is given.`,
		says`${isoDay(7)}T20:00`
	]
});
