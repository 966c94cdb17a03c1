import { matter } from './checks/matter.ts';
import type { Finding, Plan } from './plan.ts';

/** The findings that come and go from one plan of a run to another, told apart by what they are about. */
export function findingsBetween(before: Plan, after: Plan): { come: Finding[]; gone: Finding[] } {
	const key = (finding: Finding) => `${finding.severity} ${matter(finding)}`;
	const [was, is] = [before, after].map(({ findings }) => new Set(findings.map(key)));
	return {
		come: after.findings.filter((finding) => !was?.has(key(finding))),
		gone: before.findings.filter((finding) => !is?.has(key(finding)))
	};
}
