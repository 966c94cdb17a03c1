import type { Phase } from '../../run/index.ts';

/** The row's tests with a daily one of `what`; the others keep their text only if they are daily or every so many days. */
export function withTest(phase: Phase, what: string): string {
	const others = phase.test
		.filter((rule) => rule.what !== what)
		.map(
			(rule) =>
				`${rule.what} ${'everyDays' in rule.repeat && rule.repeat.everyDays > 1 ? `every ${rule.repeat.everyDays} d` : 'daily'}`
		);
	return [`${what} daily`, ...others].join(', ');
}
