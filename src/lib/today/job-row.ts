import {
	amountText,
	figure,
	measurableName,
	minutesFor,
	type Amount,
	type Finding,
	type Instant,
	type Plan,
	type Task,
	type TaskKind,
	type TaskState
} from '../planner/index.ts';
import { mostWaterL, takesOf, type Fact, type Run, type Takes } from '../run/index.ts';
import type { Ask, Verdict } from './ask.ts';
import { askOf, forecastIn, type Asking } from './asked.ts';
import { lineOf, type LoggedLine } from './logged.ts';
import { owedBy } from './owed.ts';

const MS_PER_SECOND = 1000;

/** A finding as one sentence beside a job or a tank. */
export interface Said extends Pick<Finding, 'rule' | 'severity' | 'message' | 'because' | 'source'> {
	/** the emergency card that belongs to it */
	card?: 'overdose' | 'fouling';
}

/** Rules that open an emergency card, as the reading did when it was typed. */
const cards: Readonly<Record<string, NonNullable<Said['card']>>> = {
	'ammonia-now': 'fouling',
	'reading-doubtful': 'overdose',
	'over-now': 'overdose'
};

/** One line of the day: a job, or one of the things a test measures. */
export interface JobRow {
	/** unique on the page: the task, and what is measured where a test measures several things */
	key: string;
	task: string;
	kind: TaskKind;
	phase: string;
	at: Instant;
	time: string;
	state: TaskState;
	amount: Amount | null;
	/** the amount as it stands in the text; empty where there is nothing to measure */
	amountText: string;
	/** what it is measured out in, and the most there can be */
	takes: Takes;
	/** what to do, with the amount */
	text: string;
	/** one line of what it leans on: share, levels, forecast */
	line: string;
	because: string;
	/** estimated, of this line alone */
	minutes: number;
	medicine?: string;
	fraction?: number;
	/** hazards that stand on the job, the shared last sentence (label, veterinarian, law) left to the page */
	hazards: string[];
	findings: Said[];
	ask?: Ask;
	/** of a test: what was read last is not believed, or only half, until a second reading */
	again?: boolean;
	/** of a test: a low level that is believed asks for more than the dose of its day, which is given */
	owed?: Verdict | null;
	logged: LoggedLine[];
}

/** Something in the log answers it: done, skipped, read, looked at. A choice about it does not. */
export const isAnswered = ({ logged }: Pick<JobRow, 'logged'>): boolean =>
	logged.some(({ kind }) => kind !== 'choice');

const severities = ['stop', 'caution', 'note'];
export const gravestFirst = (a: Said, b: Said): number =>
	severities.indexOf(a.severity) - severities.indexOf(b.severity);

export const said = ({ rule, severity, message, because, source }: Finding): Said => ({
	rule,
	severity,
	message,
	because,
	source,
	...(cards[rule] ? { card: cards[rule] } : {})
});

/** The lines of one task: one, or one per thing that a test measures. */
export function rowsOf(asking: Asking, task: Task, facts: readonly Fact[]): JobRow[] {
	const own = facts.filter((fact) => 'task' in fact && fact.task === task.id);
	const findings = asking.plan.findings.filter((one) => one.task === task.id).map(said);
	const { id, kind, phase, at, time, state, amount, because, medicine, fraction } = task;
	const row: JobRow = {
		key: id,
		task: id,
		kind,
		phase,
		at,
		time,
		state,
		amount,
		amountText: amount ? amountText(amount) : '',
		takes: takesOf(kind, bottleOf(asking.run, phase), mostWaterL([asking.run.tank, asking.run.spare])),
		...wordsOf(asking, task),
		because,
		minutes: minutesFor(task),
		hazards: task.cautions.slice(0, -1),
		findings: findings.sort(gravestFirst),
		logged: own.map((fact) => lineOf(fact, asking)),
		...(medicine === undefined ? {} : { medicine }),
		...(fraction === undefined ? {} : { fraction })
	};
	if (kind !== 'test') return [row];
	return (task.what ?? []).map((what, n) => testRow(asking, row, task, what, n, facts));
}

function bottleOf({ phases, medicines }: Run, phase: string) {
	const medicine = phases.find(({ id }) => id === phase)?.medicine;
	return medicines.find(({ id }) => id === medicine);
}

function testRow(
	asking: Asking,
	row: JobRow,
	task: Task,
	what: string,
	n: number,
	facts: readonly Fact[]
): JobRow {
	const several = (task.what ?? []).length;
	const ask = askOf(asking, task, what);
	const again = isDoubted(asking, ask);
	return {
		...row,
		key: several > 1 ? `${task.id}#${what}` : task.id,
		text: `Test ${measurableName[what] ?? ask.name.toLowerCase()}`,
		line: expectation({ ...ask, forecast: forecastBefore(asking, facts, task, what) ?? ask.forecast }),
		minutes: row.minutes / several,
		findings: n === 0 ? row.findings : [],
		ask,
		again,
		owed: again ? null : owedBy(asking, task, ask, facts),
		// one entry may answer the whole test; a reading answers its own line
		logged: row.logged
			.filter((line) => line.what === undefined || line.what === what)
			.map((line) => (line.kind === 'reading' ? { ...line, says: `${line.says} ${ask.unit}`.trim() } : line))
	};
}

/** A low reading nobody has confirmed, or one the plan gives no dose by. */
function isDoubted({ run, plan }: Asking, { dose, lowBefore }: Ask): boolean {
	if (lowBefore || !dose) return lowBefore;
	const rows = new Set(run.phases.filter(({ medicine }) => medicine === dose.medicine).map(({ id }) => id));
	return plan.findings.some(
		({ rule, phase }) => rule === 'reading-doubtful' && phase !== null && rows.has(phase)
	);
}

/** What was expected of a thing that has been read: the plan’s word before the first reading, not after it. */
function forecastBefore(
	{ run, plan }: Asking,
	facts: readonly Fact[],
	task: Task,
	what: string
): number | null {
	const read = facts.find((fact) => fact.kind === 'reading' && fact.task === task.id && fact.what === what);
	const found = read && plan.levels.find(({ at }) => Math.abs(Date.parse(at) - read.atMs) < MS_PER_SECOND);
	return found ? forecastIn(run, found, what) : null;
}

/** `Forecast 0.17 · keep 0.15–0.20`. */
function expectation({ forecast, keep, ammonia, unit, clear }: Ask): string {
	const expected =
		forecast === null ? '' : `Forecast ${figure(forecast, forecast < 1 ? 3 : 1)} ${unit}`.trim();
	const toxic =
		ammonia && ammonia.share !== null && forecast !== null
			? `${figure(forecast * ammonia.share, 3)} NH3-N, limit ${figure(ammonia.act, 3)}`
			: '';
	const window = keep ? `keep ${keep.floor.toFixed(2)}–${keep.ceiling.toFixed(2)}` : '';
	return [expected, toxic, window, clear === null ? '' : `clear at ${figure(clear, 3)}`]
		.filter(Boolean)
		.join(' · ');
}

/** Text and line of a job; what has no amount says why in its line. */
function wordsOf({ run, plan }: Asking, task: Task): Pick<JobRow, 'text' | 'line'> {
	const [name, why] = task.text.split(': no amount, ');
	if (name === undefined || why === undefined) return { text: task.text, line: lineFor(task, plan, run) };
	// an id says little at the tank: the job it names is told by its day
	const named = why.replace(/[a-z][a-z0-9-]*\/dose\/\d+(\.\d+)?/, (id) => {
		const other = plan.tasks.find((one) => one.id === id);
		return other ? `the dose of ${other.date}` : id;
	});
	return { text: name, line: `No amount: ${named}` };
}

function lineFor(task: Task, plan: Plan, run: Run): string {
	const percent = task.fraction === undefined ? '' : `${figure(task.fraction * 100, 0)} %`;
	switch (task.kind) {
		case 'change':
		case 'washout':
			return [percent, matched(run)].filter(Boolean).join(' · ');
		case 'dose': {
			const { raises } = task;
			const thinned = plan.tasks.some((other) => goesBefore(other, task));
			const rise = raises ? `${figure(raises.from, 3)} to ${figure(raises.to, 3)} ${raises.unit}` : '';
			return [thinned ? 'after the change' : '', rise].filter(Boolean).join(' · ');
		}
		case 'topoff':
			return 'fresh water, no salt, no medicine';
		case 'observe':
			return 'breathing, skin, eyes, fins, faeces, appetite';
		default:
			return task.minutes === undefined ? '' : `${figure(task.minutes, 0)} min`;
	}
}

/** A change of the same service, or one of that day that cannot wait and is still to be done. */
function goesBefore(change: Task, dose: Task): boolean {
	if (change.kind !== 'change' && change.kind !== 'washout') return false;
	if (change.at === dose.at) return true;
	return (
		change.urgent === true && change.state === 'open' && dose.state === 'open' && change.date === dose.date
	);
}

/** What new water has to be like. */
function matched({ tank }: Run): string {
	const parts = [
		tank.temperatureC === null ? '' : `${figure(tank.temperatureC, 1)} °C`,
		tank.salinityPpt === null ? '' : `${figure(tank.salinityPpt, 1)} ppt`
	].filter(Boolean);
	return parts.length > 0 ? `match ${parts.join(', ')}` : '';
}
