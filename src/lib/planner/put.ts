import { dayNumber, type Move, type Run } from '../run/index.ts';
import type { Service } from './clock.ts';

/** Is a job that somebody put there done at this service? */
export const isPut = ({ day, time }: Move, service: Service): boolean =>
	dayNumber(day) === service.day && (time === null ? service.slot === 0 : service.written === time);

/** Hours of a day, ascending, that are no service of the run and at which a job was put. */
export function hoursBeside({ moves, services }: Run): (day: number) => readonly string[] {
	const hours = new Map<number, string[]>();
	for (const { day, time } of Object.values(moves)) {
		if (time === null || services.includes(time)) continue;
		const others = hours.get(dayNumber(day)) ?? [];
		if (!others.includes(time)) hours.set(dayNumber(day), [...others, time].sort());
	}
	return (day) => hours.get(day) ?? [];
}
