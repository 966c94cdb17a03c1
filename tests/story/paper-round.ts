import { longDay } from './dates.ts';
import { partOf, type PaperJob } from './paper-job.ts';
import type { Part } from './sweep.ts';
import { says, type Said } from './says.ts';

/** What was logged that is none of the jobs: when, in words, and whether one touch still takes it back. */
interface LooseLine {
	time: string;
	words: string;
	undo: boolean;
}

/** The page of one day as paper has it: its jobs in working order, and what stands around them. */
export class PaperRound {
	readonly day: number;
	readonly jobs: PaperJob[];
	/** said above the jobs: what was missed, what the checks find */
	readonly above: Part[];
	/** logged beside the jobs */
	readonly loose: LooseLine[];
	/** hours of the services, where there are several */
	readonly hours: string[];
	/** the next day with a job, where this one has none */
	readonly next: string;

	constructor(
		day: number,
		jobs: PaperJob[],
		about: Partial<Pick<PaperRound, 'above' | 'loose' | 'hours' | 'next'>> = {}
	) {
		this.day = day;
		this.jobs = jobs;
		this.above = about.above ?? [];
		this.loose = about.loose ?? [];
		this.hours = about.hours ?? [];
		this.next = about.next ?? '';
	}

	job = (key: string): PaperJob | undefined => this.jobs.find((one) => one.key === key);

	parts(): Part[] {
		const around: Said[] = [
			says`${longDay(this.day)}`,
			...this.#count(),
			says`Bay 4 · Banded cardinalfish, Bay 4`,
			says`day ${this.day + 1}`,
			says`at Bay 4`,
			says`for Bay 4`,
			...this.hours.map((hour) => says`${hour}`),
			...(this.next ? [says`Nothing due today, next on ${this.next}.`] : [])
		];
		return [...this.jobs.map(partOf), ...this.above, ...this.#beside(), { where: 'html', says: around }];
	}

	#beside = (): Part[] =>
		this.loose.length === 0
			? []
			: [
					{
						where: '.tank > .loose',
						says: this.loose.flatMap(({ time, words, undo }) => [
							says`${time} · ${words}`,
							...(undo ? [says`: ${words}`] : [])
						])
					}
				];

	/** Of how many jobs how many wait, and for about how long: in steps of five minutes, and at least five. */
	#count(): Said[] {
		const waiting = this.jobs.filter(({ answer }) => !answer);
		const all = this.jobs.length;
		if (all === 0) return [];
		if (waiting.length === 0) return all === 1 ? [] : [says`All ${all} jobs are logged`];
		const minutes = waiting.reduce((sum, job) => sum + job.minutes, 0);
		const of = waiting.length === all ? `${all}` : `${waiting.length} of ${all}`;
		const about = Math.max(5, Math.round(minutes / 5) * 5);
		return [says`${of} ${all === 1 ? 'job' : 'jobs'} · about ${about} min · cleanest tank first`];
	}
}
