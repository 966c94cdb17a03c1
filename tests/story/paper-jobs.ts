import { toxicShare, nh3PerN, type HandTank } from './hand-tank.ts';
import { minutesFor, type PaperJob } from './paper-job.ts';
import { between, figure, says, type Said } from './says.ts';

/** Floor and ceiling of ionic copper, mg/L (common practice, no source). */
const floor = 0.15;
/** NH3-N to act at, mg/L (rules of long-time keepers; judgment, no source). */
export const toxicLimit = 0.02;
/** Copper at or under this counts as washed out, mg/L (judgment, no source). */
export const clear = 0.02;

/** How near two ways of weighing the same readings come to each other, mg/L. */
export const near = 0.0002;

const waiting = { answer: null, verdict: [] };

/** A job that leans on no figure: a look, a piece of equipment. */
export const plainJob = (key: string, minutes: number, text = says``): PaperJob => ({
	key,
	text,
	line: null,
	minutes,
	...waiting
});

export function ammoniaTest(key: string, tank: HandTank, minutes: number): PaperJob {
	const [least, most] = tank.tanBand();
	const total = between(least, most, 3);
	const toxic = between(least * toxicShare, most * toxicShare, 3);
	const line = says`Forecast ${total} mg/L · ${toxic} NH3-N, limit ${toxicLimit}`;
	return { key, text: says`Test ammonia`, line, minutes, ...waiting };
}

/** No filter turns ammonia into nitrate. */
export const nitrateTest = (key: string, minutes: number): PaperJob => ({
	key,
	text: says`Test nitrate`,
	line: says`Forecast 0 mg/L`,
	minutes,
	...waiting
});

/** Of a hold, or of a wash-out. */
export function copperTest(key: string, level: number, minutes: number): PaperJob {
	const forecast = between(Math.max(0, level - near), level + near, 3);
	const line = key.startsWith('wash/')
		? says`Forecast ${forecast} mg/L · clear at ${clear}`
		: says`Forecast ${forecast} mg/L · keep 0.15–0.20`;
	return { key, text: says`Test copper`, line, minutes, ...waiting };
}

export function changeJob(key: string, tank: HandTank): PaperJob {
	const litres = figure(tank.changeL(), 1);
	const washes = key.includes('/washout/');
	return {
		key,
		text: washes ? says`Wash out ${litres} L` : says`Change ${litres} L`,
		line: says`${figure(tank.share * 100, 0)} % · match 26 °C, 34 ppt`,
		minutes: washes ? minutesFor.washOut : minutesFor.change,
		...waiting
	};
}

/**
 * What tops the copper up, from a level that is known within bounds before the service; null where it is at the aim.
 * `kept` is what the change before it leaves, `most` what is there if nothing was lost.
 */
export function copperDose(
	key: string,
	tank: HandTank,
	[least, highest]: readonly [number, number],
	kept: number,
	most = highest
): PaperJob | null {
	const [many, few] = [least, highest].map((level) => tank.topUpMl(level * kept, most * kept)) as [
		number,
		number
	];
	if (many === 0) return null;
	const from = between(least * kept, highest * kept, 3);
	const to = between(least * kept + tank.riseOf(few), highest * kept + tank.riseOf(many), 3);
	const mL = few === many ? many.toFixed(1) : between(few, many, 1);
	return {
		key,
		text: says`Ionic copper ${mL} mL`,
		line: kept < 1 ? says`after the change · ${from} to ${to} mg/L` : says`${from} to ${to} mg/L`,
		minutes: minutesFor.dose,
		...waiting
	};
}

export function praziquantelDose(key: string, tank: HandTank, kept: number): PaperJob {
	const from = tank.praziquantelMgPerL() * kept;
	const [low, high] = [figure(from, 3), figure(from + 2.5, 3)];
	return {
		key,
		text: says`Praziquantel ${2.5 * tank.litres} mg`,
		line: kept < 1 ? says`after the change · ${low} to ${high} mg/L` : says`${low} to ${high} mg/L`,
		minutes: minutesFor.dose,
		...waiting
	};
}

/** What a reading of ammonia comes to, as typed. */
export function ammoniaVerdict(typed: string): Said {
	const toxic = Number(typed) * toxicShare;
	return says`${figure(Number(typed), 3)} mg/L total ammonia as N → ${figure(toxic, 3)} mg/L NH3-N (${figure(toxic * nh3PerN, 3)} as NH3) at pH 8.1, 26 °C, 34 ppt, under the limit of ${toxicLimit}.`;
}

/** What a reading of a hold comes to where the forecast was as low, or the level is inside. */
export function copperVerdict(typed: string, tank: HandTank, kept: number): Said {
	const level = Number(typed);
	const mL = tank.topUpMl(level * kept);
	const said =
		mL > 0
			? `${mL.toFixed(1)} mL${kept < 1 ? ' after the change' : ''} to ${figure(tank.aim, 3)}`
			: 'no dose needed';
	return level < floor
		? says`${figure(level, 3)} mg/L, below 0.15, as forecast: ${said}.`
		: says`${figure(level, 3)} mg/L, inside 0.15 to 0.2: ${said}.`;
}

export const washVerdict = (typed: string): Said =>
	Number(typed) <= clear
		? says`${figure(Number(typed), 3)} mg/L, at or under ${clear}: it counts as clear.`
		: says`${figure(Number(typed), 3)} mg/L, above ${clear}: the wash-out goes on.`;
