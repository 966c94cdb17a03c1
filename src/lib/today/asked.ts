import { clearAt } from '../formulary/index.ts';
import {
	activeIn,
	bottlesOf,
	breakFloorOf,
	CONFIRMS_WITHIN_DAYS,
	holdLevels,
	isRampStep,
	levelOtherwise,
	measurableName,
	momentText,
	overdue,
	PAUSE_MINUTES,
	wallOfInstant,
	WILD_FACTOR,
	WILD_FLOOR,
	type Bottle,
	type Plan,
	type Sample,
	type Task
} from '../planner/index.ts';
import { readLog, type Phase, type Run } from '../run/index.ts';
import { unionisedFraction } from '../water/index.ts';
import type { Ask, AskedDose, Keep, Pausing } from './ask.ts';
import { boundsOf, limitsOf } from './bounds.ts';
import { waterFor } from './water-now.ts';

/** What a reading of one thing is judged against today. */
export interface Asking {
	run: Run;
	plan: Plan;
	nowMs: number;
	/** tasks some entry answers for */
	answered: ReadonlySet<string>;
}

/** Everything the judging of one measured thing of a test needs. */
export function askOf(asking: Asking, task: Task, what: string): Ask {
	const { run, plan } = asking;
	const water = waterFor(asking, task);
	const bottle = bottleOf(run, what);
	const phases = phasesOn(run, plan, task.date);
	const hold = bottle && phases.find(({ kind, medicine }) => kind === 'hold' && medicine === bottle.id);
	const wash = bottle && phases.find(({ kind, medicine }) => kind === 'washout' && medicine === bottle.id);
	const keep = bottle && hold ? keepOf(asking, task, hold, bottle) : null;
	const forecast = water ? forecastOf(water, what, bottle) : null;
	const mates = plan.tasks.filter(({ at, id }) => at === task.at && !asking.answered.has(id));
	const change = mates.find(({ kind }) => kind === 'change' || kind === 'washout');
	return {
		what,
		name: bottle && what === bottle.id ? bottle.row.name : (measurableName[what] ?? what),
		unit: unitOf(what, bottle),
		forms: what === 'NH3' ? formsOf(run) : [],
		forecast,
		believed: believedOf(asking, what, forecast, bottle),
		volumeL: water?.volumeL ?? null,
		brimL: water ? brimOf(asking, water) : null,
		keep,
		...(bottle && hold ? lowBefore(asking, bottle, water) : { lowBefore: false }),
		ceiling: keep?.ceiling ?? (bottle && !wash ? bottle.ceiling : null),
		clear: bottle && wash && !hold ? (wash.level?.high ?? clearAt(bottle.row.active)) : null,
		dose: bottle && hold ? doseOf(bottle) : null,
		thins: change?.fraction === undefined ? null : { task: change.id, fraction: change.fraction },
		topoff: mates.find(({ kind }) => kind === 'topoff')?.id ?? null,
		ammonia: what === 'NH3' ? ammoniaOf(asking, water) : null,
		bounds: boundsOf(what, { run, water, phases })
	};
}

/** Phases that are under way on a day. */
function phasesOn(run: Run, plan: Plan, day: string): Phase[] {
	const open = new Set(
		plan.phases.flatMap(({ id, from, to }) => (from && from <= day && (to ?? day) >= day ? [id] : []))
	);
	return run.phases.filter(({ id }) => open.has(id));
}

/** What a sample of the plan says of a thing that is measured; null: nothing. */
export const forecastIn = (run: Run, water: Sample, what: string): number | null =>
	forecastOf(water, what, bottleOf(run, what));

const bottleOf = (run: Run, what: string) => bottlesOf(run).find((bottle) => isOf(bottle, what)) ?? null;

const isOf = ({ id, measuredAs }: Bottle, what: string) => id === what || measuredAs === what;

function forecastOf(water: Sample, what: string, bottle: Bottle | null): number | null {
	if (bottle) return water.medicinesMgPerL[bottle.id] ?? null;
	if (what === 'NH3') return water.tanMgNPerL;
	if (what === 'NO3') return water.nitrateMgPerL;
	if (what === 'S') return water.salinityPpt;
	return what === 'T' ? water.temperatureC : null;
}

/** What is taken for true at once. As the plan hears it: the reading after one in doubt is believed. */
function believedOf(asking: Asking, what: string, forecast: number | null, bottle: Bottle | null) {
	if (forecast === null || (!bottle && what !== 'NH3')) return null;
	if (bottle && inDoubt(asking, bottle)) return null;
	const floor = Math.max(WILD_FLOOR, bottle?.clear ?? 0);
	// a dose that nobody answered for may be in the water
	const may = bottle && isUnanswered(asking, bottle) ? (bottle.ceiling ?? Infinity) : 0;
	return {
		low: forecast > floor ? forecast / WILD_FACTOR : 0,
		high: Math.max(forecast * WILD_FACTOR, floor, may)
	};
}

const inDoubt = ({ run, plan }: Asking, { id }: Bottle): boolean =>
	plan.findings.some(
		({ rule, phase }) =>
			rule === 'reading-doubtful' && run.phases.find((one) => one.id === phase)?.medicine === id
	);

function isUnanswered({ run, plan, nowMs }: Asking, { id }: Bottle): boolean {
	const passed = overdue(run, nowMs);
	return plan.tasks.some(
		(task) => task.kind === 'dose' && task.medicine === id && task.state === 'open' && passed(task)
	);
}

const units: Record<string, string> = { pH: '', S: 'ppt', T: '°C' };
const unitOf = (what: string, bottle: Bottle | null) => bottle?.row.unit ?? units[what] ?? 'mg/L';

/** The tank the fish are in when full: the second one after a move has its own volume, which the water shows. */
function brimOf({ run }: Asking, water: Sample): number {
	const full = run.tank.netL ?? water.volumeL;
	return Math.max(full, water.volumeL);
}

function keepOf(asking: Asking, task: Task, hold: Phase, bottle: Bottle): Keep | null {
	const { run, plan } = asking;
	const levels = holdLevels(hold, bottle, run.lots);
	if (!levels) return null;
	const dose = plan.tasks.find(
		({ phase, kind, at }) => phase === hold.id && kind === 'dose' && at === task.at
	);
	const step = dose && isRampStep(dose) ? dose.raises?.to : undefined;
	const pause = pausingOf(asking, hold, bottle);
	return {
		floor: levels.floor,
		target: Math.min(step ?? levels.aim, levels.aim),
		ceiling: levels.ceiling,
		...(pause ? { pause } : {})
	};
}

const MINUTES_PER_DAY = 1440;

function pausingOf({ run, plan, nowMs }: Asking, hold: Phase, bottle: Bottle): Pausing | null {
	const by = plan.phases.find(({ id }) => id === hold.id)?.pausesUntil;
	const least = breakFloorOf(bottle);
	if (!by || least === null) return null;
	const wall = wallOfInstant(run.timeZone, Date.parse(by));
	const words = (moment: number) => momentText(moment, wallOfInstant(run.timeZone, nowMs));
	return { by, byWords: words(wall), sinceWords: words(wall - PAUSE_MINUTES / MINUTES_PER_DAY), least };
}

const MS_PER_SECOND = 1000;
const MS_PER_DAY = 86_400_000;

/** What the plan finds unconfirmed: a reading that came before, and the level if it was wrong, where it is too old to confirm. */
function lowBefore(
	{ run, plan, nowMs }: Asking,
	bottle: Bottle,
	water: Sample | null
): Pick<Ask, 'lowBefore' | 'otherwise'> {
	const found = plan.findings.filter(({ rule }) => rule === 'reading-unconfirmed').map(({ cell }) => cell);
	const fact = readLog(run.log).find(
		(one) => found.includes(`log.${one.id}`) && one.kind === 'reading' && isOf(bottle, one.what)
	);
	if (fact?.kind !== 'reading') return { lowBefore: false };
	if (nowMs - fact.atMs <= CONFIRMS_WITHIN_DAYS * MS_PER_DAY) return { lowBefore: true };
	// the first sample of that moment stands before the reading
	const then = plan.levels.find(({ at }) => Math.abs(Date.parse(at) - fact.atMs) < MS_PER_SECOND);
	const forecast = then?.medicinesMgPerL[bottle.id];
	const level = water?.medicinesMgPerL[bottle.id];
	if (!then || !water || forecast === undefined || level === undefined) return { lowBefore: true };
	const doubt = { read: fact.value, forecast, volumeL: then.volumeL };
	return { lowBefore: true, otherwise: levelOtherwise(doubt, level, water.volumeL) };
}

function doseOf(bottle: Bottle): AskedDose | null {
	const { strength, measure } = bottle.medicine;
	if (!strength) return null;
	const unit = strength.form === 'powder' ? 'mg' : 'mL';
	return {
		medicine: bottle.id,
		name: bottle.row.name,
		activePerUnit: activeIn(bottle, { value: 1, unit }),
		unit,
		step: measure,
		raiseMost: bottle.row.raisePerService?.value ?? null
	};
}

/** The forms of an ammonia kit, the one this run was read with last in front. */
function formsOf(run: Run): string[] {
	const last = readLog(run.log).findLast((fact) => fact.kind === 'reading' && fact.what === 'NH3');
	const used = last?.kind === 'reading' ? last.as : undefined;
	const all = ['tan', 'nh3-total', 'nh3-free'];
	return used ? [used, ...all.filter((form) => form !== used)] : all;
}

function ammoniaOf({ run, nowMs }: Asking, water: Sample | null): Ask['ammonia'] {
	const read = readLog(run.log).findLast(
		(fact) => fact.kind === 'reading' && fact.what === 'pH' && fact.atMs <= nowMs
	);
	const pH = read?.kind === 'reading' ? read.value : run.tank.pH;
	const temperatureC = water?.temperatureC ?? run.tank.temperatureC;
	const salinityPpt = water?.salinityPpt ?? run.tank.salinityPpt;
	const missing = [
		pH === null ? 'pH' : '',
		temperatureC === null ? 'temperature' : '',
		salinityPpt === null ? 'salinity' : ''
	].filter(Boolean);
	const share =
		pH !== null && temperatureC !== null && salinityPpt !== null
			? unionisedFraction({ temperatureC, salinityPpt, pH })
			: null;
	return {
		share: share?.ok ? share.value.fraction : null,
		water: share?.ok
			? `pH ${pH}, ${round(temperatureC)} °C, ${round(salinityPpt)} ppt`
			: missing.join(' and ') || 'water that can be reckoned with is',
		sourceMgNPerL: run.source.ammoniaMgNPerL,
		...limitsOf(run)
	};
}

const round = (value: number | null) => String(Number((value ?? 0).toFixed(1)));
