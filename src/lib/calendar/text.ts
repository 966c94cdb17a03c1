import type { Finding, Plan, PhaseSpan, Task } from '../planner/index.ts';
import { dayNumber, weekday, type Day, type Run } from '../run/index.ts';
import { clean } from './content-line.ts';
import { deference, figure, markOf } from './words.ts';

/**
 * A plan to be read in a terminal: what stands against it, its phases, then each day with its jobs in order.
 * Nothing in it can steer the terminal.
 */
export function planToText(run: Run, plan: Plan): string {
	const parts = [
		headOf(run, plan),
		findingsOf(plan),
		plan.phases.map(phaseLine).join('\n'),
		(plan.learned ?? []).map(({ of, because }) => line(`Learned (${of}): ${because}`)).join('\n'),
		...daysOf(plan),
		suppliesOf(plan),
		deference
	];
	return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

/** One line, whatever was typed. */
const line = (text: string): string => clean(text).replace(/\s+/g, ' ').trim();

function headOf(run: Run, plan: Plan): string {
	const tank = [run.tank.name, run.tank.netL === null ? '' : `${figure(run.tank.netL)} L`]
		.filter(Boolean)
		.join(', ');
	const release = plan.release === null ? 'No release date.' : `Release ${longDay(plan.release)}.`;
	return [
		line(run.name),
		line(`${tank ? `Tank ${tank}. ` : ''}Times are those of ${run.timeZone}.`),
		release
	].join('\n');
}

const findingsOf = (plan: Plan): string => plan.findings.toSorted(bySeverity).map(findingText).join('\n');

const rank = { stop: 0, caution: 1, note: 2 } as const;
/** The worst first; the plan's own order within a severity. */
const bySeverity = (a: Finding, b: Finding): number => rank[a.severity] - rank[b.severity];

function findingText(finding: Finding): string {
	const place = [finding.date ?? 'whole run', finding.phase ?? ''].filter(Boolean).join(', ');
	const lines = [`${finding.severity.toUpperCase()} (${place}): ${line(finding.message)}`];
	if (finding.because) lines.push(`  ${line(finding.because)}`);
	if (finding.source) lines.push(`  Source: ${line(finding.source)}`);
	for (const { title, cost } of finding.repairs)
		lines.push(`  Repair: ${line(cost ? `${title} (${cost})` : title)}`);
	return lines.join('\n');
}

function phaseLine({ id, from, to, creditedDays }: PhaseSpan): string {
	const span = from === null ? 'no dates' : to === null ? `from ${from}` : `${from} to ${to}`;
	return `${id.padEnd(12)} ${span}${creditedDays === undefined ? '' : `, ${figure(creditedDays)} days credited`}`;
}

function daysOf(plan: Plan): string[] {
	const days = new Map<Day, Task[]>();
	for (const task of plan.tasks) {
		const jobs = days.get(task.date);
		if (jobs) jobs.push(task);
		else days.set(task.date, [task]);
	}
	return [...days].map(([day, tasks]) => [longDay(day), ...tasks.flatMap(jobLines)].join('\n'));
}

function jobLines(task: Task): string[] {
	const lines = [`  ${task.time}  ${line(`${markOf(task.state)}${task.text}`)}  [${task.id}]`];
	for (const text of [task.because, ...task.cautions]) if (text) lines.push(`         ${line(text)}`);
	return lines;
}

const weekdays = ['', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** `Mon 2026-11-30`. */
const longDay = (day: Day): string => `${weekdays[weekday(dayNumber(day))]} ${day}`;

function suppliesOf({ supplies, tasks }: Plan): string {
	if (!tasks.length) return '';
	const medicines = supplies.medicines.map(({ id, value, unit }) => `${id} ${figure(value)} ${unit}`);
	return `Needed: ${[`${figure(supplies.waterL)} L water`, ...medicines].join(', ')}.`;
}
