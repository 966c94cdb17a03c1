import { unsourced } from '../../formulary/index.ts';
import type { Severity, Task } from '../plan.ts';
import { figure } from '../words.ts';
import { ahead, NEAR, servicesIn, type Check, type Draft, type Seen } from './check.ts';

/** What one change may do to the tank at once (judgment, no source). */
const MOST_HEAT_C = 1;
const MOST_SALT_PPT = 1;
const MOST_PH = 0.2;
/** Water this far off is worth a word even where a small change hides it (common practice, no source). */
const OFF_BY_C = 2;
const OFF_BY_PPT = 2;

interface Pour {
	task: Task;
	share: number;
}

/** The change or move that brings the most new water. */
function largest(seen: Seen): Pour | null {
	return ahead(seen).reduce<Pour | null>((most, task) => {
		const share =
			task.kind === 'transfer'
				? 1
				: task.kind === 'change' || task.kind === 'washout'
					? (task.fraction ?? 0)
					: 0;
		return share > (most?.share ?? 0) ? { task, share } : most;
	}, null);
}

/** A change is judged by what it does to the tank. */
export const sourceUnmatched: Check = {
	rule: 'source-unmatched',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'source water that would move temperature, salinity or pH, or that carries ammonia',
	source: unsourced.J,
	find(seen) {
		const pour = largest(seen);
		return pour ? [...heat(seen, pour), ...salt(seen), ...acid(seen, pour), ...ammonia(seen, pour)] : [];
	},
	repairs(draft, { run: { tank } }) {
		if (draft.cell === 'source.temperature' && tank.temperatureC !== null)
			return [
				{
					title: `Bring new water to ${figure(tank.temperatureC, 1)} °C first`,
					cells: { 'source.temperature': `${tank.temperatureC} C` }
				}
			];
		if (draft.cell === 'source.salinity' && tank.salinityPpt !== null)
			return [
				{
					title: `Mix new water to ${figure(tank.salinityPpt, 1)} ppt`,
					cells: { 'source.salinity': `${tank.salinityPpt} ppt` }
				}
			];
		if (draft.cell === 'source.pH' && tank.pH !== null)
			return [
				{ title: `Bring new water to pH ${figure(tank.pH, 2)} first`, cells: { 'source.pH': tank.pH } }
			];
		return [];
	}
};

const draft = (severity: Severity, { task }: Pour, key: string, message: string, because: string): Draft => ({
	severity,
	date: task.date,
	phase: task.phase,
	cell: `source.${key}`,
	message,
	because
});

const percent = ({ share }: Pour) => `${figure(share * 100, 0)} %`;

function heat({ run: { tank, source } }: Seen, pour: Pour): Draft[] {
	if (tank.temperatureC === null || source.temperatureC === null) return [];
	const off = source.temperatureC - tank.temperatureC;
	const moves = pour.share * off;
	const shock = Math.abs(moves) > MOST_HEAT_C + NEAR;
	if (!shock && Math.abs(off) <= OFF_BY_C + NEAR) return [];
	return [
		draft(
			shock ? 'caution' : 'note',
			pour,
			'temperature',
			`New water at ${figure(source.temperatureC, 1)} °C moves the tank by ${figure(moves, 1)} °C in a change of ${percent(pour)}.`,
			shock
				? `More than ${MOST_HEAT_C} °C at once is a shock: bring it to the tank’s temperature first.`
				: `It is ${figure(Math.abs(off), 1)} °C off; a larger change would be a shock.`
		)
	];
}

/** Up or down, in one change or creeping over weeks. Low-salinity steps have rules of their own. */
function salt(seen: Seen): Draft[] {
	const source = seen.run.source.salinityPpt;
	if (source === null) return [];
	const steep = servicesIn(seen)
		.filter(({ before }) => Date.parse(before.at) >= seen.nowMs)
		.flatMap(({ before, after }) => {
			const task = seen.plan.tasks.find(
				({ at, kind }) => at === before.at && (kind === 'change' || kind === 'washout' || kind === 'transfer')
			);
			const stepped = seen.plan.tasks.some(({ at, kind }) => at === before.at && kind === 'salinity');
			const moves = stepped ? 0 : (after.salinityPpt ?? 0) - (before.salinityPpt ?? 0);
			return task && Math.abs(moves) > MOST_SALT_PPT + NEAR
				? [{ task, moves, from: before.salinityPpt ?? 0 }]
				: [];
		});
	const [first] = steep;
	if (!first) return thins(seen, source);
	const up = first.moves > 0;
	return [
		draft(
			'caution',
			{ task: first.task, share: first.task.fraction ?? 1 },
			'salinity',
			`${first.task.text} on ${first.task.date} ${up ? 'raises' : 'lowers'} salinity from ${figure(first.from, 1)} by ${figure(Math.abs(first.moves), 1)} ppt.`,
			`More than ${MOST_SALT_PPT} ppt ${up ? 'upward' : 'downward'} at once is a shock; new water is at ${figure(source, 1)} ppt.`
		)
	];
}

/** Small changes with fresher water: none is a shock, and together they carry the tank away from where it should be. */
function thins({ run, plan: { tasks } }: Seen, sourcePpt: number): Draft[] {
	const tankPpt = run.tank.salinityPpt;
	const task = tasks.find(({ kind }) => kind === 'change' || kind === 'washout');
	const lowered = run.phases.some(({ kind }) => kind === 'low-salinity');
	if (!task || lowered || tankPpt === null || tankPpt - sourcePpt <= OFF_BY_PPT + NEAR) return [];
	return [
		draft(
			'caution',
			{ task, share: task.fraction ?? 1 },
			'salinity',
			`New water at ${figure(sourcePpt, 1)} ppt thins the tank from ${figure(tankPpt, 1)} ppt with each change, the first on ${task.date}.`,
			'No single change is a shock, but together they bring the tank to the salinity of the new water, and copper acts harder in thin water.'
		)
	];
}

function acid({ run: { tank, source } }: Seen, pour: Pour): Draft[] {
	if (tank.pH === null || source.pH === null) return [];
	const moves = pour.share * (source.pH - tank.pH);
	if (Math.abs(moves) <= MOST_PH + NEAR) return [];
	return [
		draft(
			'caution',
			pour,
			'pH',
			`New water at pH ${figure(source.pH, 2)} moves the tank by about ${figure(moves, 2)} in a change of ${percent(pour)}.`,
			moves > 0
				? 'A rise makes the ammonia that is there more toxic: 2 mg/L is 0.023 as NH3-N at pH 7.4, 1.4 mg/L is 0.063 at 8.0.'
				: 'Fish are shocked, and bound copper comes free when pH falls.'
		)
	];
}

/** Some ammonia in the source is counted by the forecast; more than the tank may have is no water to change with. */
function ammonia(seen: Seen, pour: Pour): Draft[] {
	const { ammoniaMgNPerL: tan } = seen.run.source;
	if (tan <= 0) return [];
	const shares = (seen.walked?.chances ?? []).flatMap(({ toxicShare }) => toxicShare ?? []);
	const nh3 = tan * Math.max(0, ...shares);
	const bad = nh3 > seen.run.limits.nh3MgNPerL + NEAR;
	return [
		draft(
			bad ? 'caution' : 'note',
			pour,
			'ammonia',
			`The source water carries ${figure(tan, 2)} mg/L total ammonia as N${shares.length > 0 ? `, ${figure(nh3, 3)} of it toxic in this tank` : ''}.`,
			bad
				? `The limit is ${figure(seen.run.limits.nh3MgNPerL, 3)} mg/L NH3-N: changes with it cannot hold it.`
				: 'Each change brings some in; the forecast counts it.'
		)
	];
}
