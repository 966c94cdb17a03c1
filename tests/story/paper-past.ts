import { toxicShare, type HandTank } from './hand-tank.ts';
import type { CourseDay, CourseJob } from './paper-course.ts';
import type { Rows } from './paper-rows.ts';

/** The kind of a job and its words, from its key and the amount that was logged. */
function jobOf(key: string, text: string, shows: string): CourseJob {
	const [row, kind] = key.split('/') as [keyof Rows, string];
	const amount = shows.split(' ')[0] ?? '';
	if (kind === 'dose')
		return row === 'flukes'
			? { row, kind: 'fluke', what: amount }
			: { row, kind: 'copper', what: '', mL: [Number(amount), Number(amount)] };
	if (kind === 'change') return { row, kind: 'change', what: amount };
	if (kind === 'washout') return { row, kind: 'wash', what: amount };
	if (kind === 'observe') return { row, kind: 'look', what: '' };
	if (kind === 'acclimate') return { row, kind: 'move', what: text };
	if (kind === 'equipment')
		return { row, kind: 'equipment', what: key.endsWith('/1') ? 'carbon in' : 'carbon out' };
	if (kind === 'release') return { row, kind: 'release', what: '' };
	if (kind === 'clean') return { row, kind: 'clean', what: '' };
	throw new Error(`paper knows no ${kind}`);
}

const measured: Record<string, string> = { copper: 'Cu', ammonia: 'NH₃', nitrate: 'NO₃' };

/** What the keeper has done so far, day by day, and the water as she found and left it. */
export class PaperPast {
	readonly days: CourseDay[] = [];

	/** A day begins; `tests`: what nobody came to read. */
	begin(day: number, tank: HandTank, tests: readonly string[] | null = null): void {
		const missed: CourseJob[] = tests ? [{ row: 'copper', kind: 'test', what: tests.join(' · ') }] : [];
		this.days[day] = { day, jobs: missed, waterL: 0, away: tests !== null, levels: [] };
		this.note(day, tank);
	}

	/** The water as it is now. */
	note(day: number, tank: HandTank): void {
		const level = tank.copperMgPerL();
		const tan = tank.tanBand();
		this.days[day]?.levels.push({
			tan,
			toxic: [tan[0] * toxicShare, tan[1] * toxicShare],
			copper: [level, level],
			praziquantel: tank.praziquantelMgPerL()
		});
	}

	/** The same with a dose of copper that is open on the last day. */
	withOpen(mL: number, tank: HandTank): CourseDay[] {
		const last = this.days.at(-1);
		const water = last?.levels.at(-1);
		if (!last || !water) return this.days;
		const level = tank.copperMgPerL() + tank.riseOf(mL);
		const job: CourseJob = { row: 'copper', kind: 'copper', what: '', mL: [mL, mL], open: true };
		const levels = [...last.levels, { ...water, copper: [level, level] as const }];
		return [...this.days.slice(0, -1), { ...last, jobs: [...last.jobs, job], levels }];
	}

	/** A job was answered: a test together with the others of its service. */
	did(day: number, key: string, text: string, shows: string): void {
		const own = this.days[day];
		if (!own) return;
		if (!key.includes('/test/')) {
			const job = jobOf(key, text, shows);
			if (job.kind === 'change' || job.kind === 'wash') own.waterL += Number(job.what);
			own.jobs.push(job);
			return;
		}
		const what = measured[text.replace('Test ', '')] ?? '';
		const test = own.jobs.find(({ kind }) => kind === 'test');
		if (test) test.what += ` · ${what}`;
		else own.jobs.push({ row: key.split('/')[0] as keyof Rows, kind: 'test', what });
	}
}
