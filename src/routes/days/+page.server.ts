import { dayIn, offerRepairs, type Plan } from '$lib/planner';
import { currentStore, openRuns, readLogs } from '$lib/server';
import type { PageServerLoad } from './$types';

/** Every run with its days away, what falls on them, and the ways out that were proved to work. */
export const load: PageServerLoad = async () => {
	const store = currentStore();
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	const now = new Date().toISOString();
	const runs = stored.map(({ id, name, version, document }) => {
		const today = dayIn(String(document.timeZone), now);
		const away = document.away as string[] | undefined;
		const marked = new Set(away);
		const onThem = ({ rule }: Plan['findings'][number]) => rule === 'away-on-task';
		// where nobody is away nothing falls on it, and planning every run of a shop takes long
		const plan =
			marked.size > 0
				? offerRepairs({ ...document, id, log: logs.get(id) ?? [] }, now, today, onThem)
				: { tasks: [], findings: [] };
		return {
			id,
			name,
			version,
			timeZone: String(document.timeZone),
			today,
			away,
			hands: document.hands as Record<string, string> | undefined,
			tasks: plan.tasks
				.filter(({ date, state }) => date >= today && marked.has(date) && state === 'planned')
				.map(({ id, text, date }) => ({ id, text, date })),
			findings: plan.findings.filter(onThem).map(({ severity, date, message, because, repairs }) => ({
				severity,
				date,
				message,
				because,
				repairs
			}))
		};
	});
	return { runs };
};
