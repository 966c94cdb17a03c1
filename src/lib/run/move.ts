import { isDay } from './days.ts';
import type { Day } from './run.ts';

/** Where a job was put by hand: a day, at its first service when no wall-clock time `HH:MM` is said. */
export interface Move {
	day: Day;
	time: string | null;
}

const form = /^(\d{4}-\d{2}-\d{2})(?:T((?:[01]\d|2[0-3]):[0-5]\d))?$/;

/** Reads `2026-12-05` or `2026-12-05T18:30`, local time; null on anything else. */
export function moveOf(text: string): Move | null {
	const [, day = '', time = null] = form.exec(text) ?? [];
	return isDay(day) ? { day, time } : null;
}

/** As a file writes it: a day alone says the first service of that day. */
export const moveText = ({ day, time }: Move): string => (time === null ? day : `${day}T${time}`);
