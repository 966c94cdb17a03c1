import { fullDay, isoDay } from './dates.ts';
import { raiseOf, whyOf, wordsOf } from './paper-because.ts';
import type { CourseDay, CourseJob } from './paper-course.ts';
import { keyOf } from './paper-file.ts';
import type { Outlook } from './paper-outlook.ts';
import type { Rows } from './paper-rows.ts';
import { between, says } from './says.ts';
import type { Part } from './sweep.ts';

const names: Partial<Record<keyof Rows, string>> = { copper: 'Hold', flukes: 'Pulse' };

/** A job of a day to come, as its dialog has it: three digits that count, and where it may be moved to. */
function jobPart(job: CourseJob, day: CourseDay, rows: Rows): Part {
	const text = wordsOf(job);
	const raise = raiseOf(job, day);
	const levels = raise ? says` · ${between(...raise.from, 3)} → ${between(...raise.to, 3)} mg/L` : null;
	const stands = `08:00 · ${names[job.row] ?? job.row} · planned`;
	return {
		where: `dialog [data-task="${keyOf(job, day.day, rows)}"]`,
		says: [
			...(/\d/.test(text.text) ? [text] : []),
			{
				text: stands + (levels?.text ?? ''),
				fits: (seen) =>
					seen.startsWith(stands) && (levels ? levels.fits(seen.slice(stands.length)) : seen === stands)
			},
			...whyOf(job, day, rows),
			says`${isoDay(day.day)}`,
			says`08:00`
		]
	};
}

/** The dialog of a day to come. */
export function dayParts({ days, rows }: Outlook, asked: number): Part[] {
	const day = days.find((one) => one.day === asked);
	if (!day) throw new Error('no such day');
	return [
		...day.jobs.map((job) => jobPart(job, day, rows)),
		{ where: 'dialog', says: [says`${fullDay(asked)}`] }
	];
}
