import type { Finding, Plan, Severity } from '$lib/planner';

export const severityNames: Readonly<Record<Severity, string>> = {
	stop: 'Stop',
	caution: 'Caution',
	note: 'Note'
};

/** What stays the same of a finding while its numbers and days move with each edit. */
const nameOf = ({ rule, phase, cell, task, severity }: Finding): string =>
	[rule, phase, cell, task, severity].join(' ');

/** Names of all that stops or warns. */
export const heardOf = (plan: Pick<Plan, 'findings'>): Set<string> =>
	new Set(plan.findings.filter(({ severity }) => severity !== 'note').map(nameOf));

/**
 * What is said aloud after an edit: the first finding that was not there before, and how many more there are; else how
 * many are left of fewer; empty when nothing came or went.
 */
export function findingNews(heard: ReadonlySet<string>, plan: Pick<Plan, 'findings'>): string {
	const now = heardOf(plan);
	const fresh = plan.findings.filter((finding) => {
		const name = nameOf(finding);
		return now.has(name) && !heard.has(name);
	});
	const [first] = fresh.filter(({ severity }) => severity === 'stop').concat(fresh);
	if (first) {
		const more = fresh.length > 1 ? ` ${fresh.length - 1} more in the list of checks.` : '';
		return `${severityNames[first.severity]}. ${first.message}${more}`;
	}
	if ([...heard].every((name) => now.has(name))) return '';
	return now.size === 0 ? 'Nothing stops or warns any more.' : `${now.size} left in the list of checks.`;
}
