import { rank, type Job } from './job.ts';

/**
 * The jobs of one service in working order. Of several changes the largest is made, named for the first row that
 * asks one; a thing is tested once however many rows ask for it.
 */
export function gather(jobs: readonly Job[]): Job[] {
	const merged = oneTestEach(oneChange(jobs));
	return merged
		.map((job, i) => ({ job, i }))
		.sort((a, b) => rank(a.job) - rank(b.job) || a.i - b.i)
		.map(({ job }) => job);
}

function oneChange(jobs: readonly Job[]): Job[] {
	const changes = jobs.filter((job) => job.fraction !== undefined);
	const [first] = changes;
	if (!first || changes.length === 1) return [...jobs];
	const largest = changes.reduce((most, job) => ((job.fraction ?? 0) > (most.fraction ?? 0) ? job : most));
	const kept: Job = { ...largest, phase: first.phase, kind: first.kind, n: first.n };
	return jobs.flatMap((job) => (job === first ? [kept] : job.fraction === undefined ? [job] : []));
}

function oneTestEach(jobs: readonly Job[]): Job[] {
	const seen = new Set<string>();
	return jobs.flatMap((job) => {
		if (!job.what) return [job];
		const what = job.what.filter((w) => !seen.has(w));
		what.forEach((w) => seen.add(w));
		if (what.length === job.what.length) return [job];
		return what.length === 0 ? [] : [withWhat(job, what)];
	});
}

function withWhat(job: Job, what: string[]): Job {
	const act: Job['act'] = (water, source) => {
		const deed = job.act(water, source);
		return deed && { ...deed, words: () => ({ ...deed.words(), text: `Test ${what.join(', ')}`, what }) };
	};
	return { ...job, what, act };
}
