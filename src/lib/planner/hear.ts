import type { Fact } from '../run/index.ts';
import { tanFromKit } from '../water/index.ts';
import type { Bottle } from './bottle.ts';
import { CONFIRMS_WITHIN_DAYS, levelOtherwise } from './doubt.ts';
import { bottleRead, boundsOf } from './fit/lessons.ts';
import type { ReadEvent } from './fit/trace.ts';
import { levelOf, sides, withMedicine } from './tank-water.ts';
import type { Walk } from './walk.ts';

/** A reading this many times off the forecast is a slip of the pen, the unit or the kit (KEEPER rule, judgment). */
export const WILD_FACTOR = 10;
/** Levels too small for a factor to mean anything, mg/L. */
export const WILD_FLOOR = 0.01;

type Reading = Extract<Fact, { kind: 'reading' }>;

/** A reading replaces the forecast at its time, unless it cannot be believed. */
export function hear(walk: Walk, entry: Reading, wall: number): void {
	const { what, value } = entry;
	walk.lastTest.set(what, wall);
	walk.readings.set(what, { value, wall });
	const bottle = bottleRead(walk.bottles, what);
	if (bottle) {
		judge(walk, bottle, entry, wall);
		noteReading(walk, {
			of: bottle.id,
			level: value,
			shown: value,
			forecast: levelOf(walk.forecast.central, bottle),
			teaches: !walk.doubts[bottle.index]?.implausible
		});
		setMedicine(walk, bottle, value);
		for (const { machine } of walk.active) machine.heard?.({ what: bottle.measuredAs, value, wall });
		return;
	}
	const { central } = walk.forecast;
	if (what === 'NH3' && walk.run.tank.netL !== null) setTan(walk, entry);
	if (what === 'NO3') setMass(walk, 'nitrateMg', value * central.volumeL);
	if (what === 'S') {
		setMass(walk, 'saltG', value * central.volumeL);
		walk.around = { ...walk.around, salinityKnown: true };
	}
	if (what === 'T') walk.around = { ...walk.around, temperatureC: value };
	if (what === 'pH') walk.around = { ...walk.around, pH: value };
}

function noteReading(walk: Walk, read: Omit<ReadEvent, 'is' | 'perShown' | 'volumeL'>): void {
	const perShown = read.shown > 0 ? read.level / read.shown : 1;
	walk.note({ is: 'reading', ...read, perShown, volumeL: walk.forecast.central.volumeL });
}

/**
 * Low is unconfirmed where more was expected. A second low reading confirms the first as long as that one still has the
 * water low: once a dose has made up for it, or a reading inside has followed, it says something new.
 */
function judge(walk: Walk, bottle: Bottle, { id, value, task }: Reading, wall: number): void {
	const doubt = walk.doubts[bottle.index];
	if (!doubt) return;
	// doses that nobody answered for may be in the water, all of them up to the ceiling
	const may = doubt.unanswered === null ? 0 : (bottle.ceiling ?? Infinity);
	walk.answerAll(bottle, task);
	const forecast = levelOf(walk.forecast.central, bottle);
	const { floor } = boundsOf(walk, bottle);
	const above = bottle.ceiling !== null && value > bottle.ceiling;
	// a loss is a range: what the greatest explains is no slip
	const { low: least, high: most } = walk.forecast;
	const highest = Math.max(levelOf(most, bottle), may / WILD_FACTOR);
	const wild = isWild(value, levelOf(least, bottle), highest, bottle.clear);
	const wasWild = doubt.implausible !== null;
	doubt.implausible =
		above || (wild && !wasWild)
			? `the reading of ${value} ${bottle.row.unit} is ${above ? `above the ceiling of ${bottle.ceiling}` : `far from the forecast of ${Number(forecast.toPrecision(2))}`}`
			: null;
	doubt.tenfold = doubt.implausible !== null && wild && value > forecast ? forecast : null;
	const before = doubt.unconfirmed;
	const isOld = before !== null && wall - before.wall > CONFIRMS_WITHIN_DAYS;
	const expected = isOld
		? Math.max(forecast, levelOtherwise(before, forecast, walk.forecast.central.volumeL))
		: forecast;
	const contradicts = value < floor && expected >= floor;
	doubt.unconfirmed = contradicts
		? { id, read: value, forecast: expected, volumeL: walk.forecast.central.volumeL, wall }
		: null;
	doubt.asks = doubt.implausible === null ? doubt.unconfirmed : null;
}

/** Where both are clear, a kit that shows none and a forecast of next to nothing agree. */
const isWild = (value: number, least: number, most: number, clear: number): boolean =>
	Math.max(value, least) > Math.max(WILD_FLOOR, clear) &&
	(value > most * WILD_FACTOR || value * WILD_FACTOR < least);

function setMedicine(walk: Walk, bottle: Bottle, value: number): void {
	for (const side of [...sides, 'most', 'believed'] as const) {
		const tank = walk.forecast[side];
		if (tank)
			walk.forecast = { ...walk.forecast, [side]: withMedicine(tank, bottle.index, value * tank.volumeL) };
	}
}

function setMass(walk: Walk, key: 'tanMg' | 'nitrateMg' | 'saltG', mass: number): void {
	for (const side of sides)
		walk.forecast = { ...walk.forecast, [side]: { ...walk.forecast[side], [key]: mass } };
}

function setTan(walk: Walk, { value, as }: Reading): void {
	const { central } = walk.forecast;
	const { temperatureC, pH } = walk.around;
	const form = as === 'nh3-total' || as === 'nh3-free' ? as : 'tan';
	if (form === 'nh3-free' && (temperatureC === null || pH === null)) return;
	const tan = tanFromKit(value, form, {
		temperatureC: temperatureC ?? 25,
		pH: pH ?? 8,
		salinityPpt: central.saltG / central.volumeL
	});
	if (!tan.ok) return;
	const forecast = central.tanMg / central.volumeL;
	noteReading(walk, { of: 'NH3', level: tan.value, shown: value, forecast, teaches: true });
	setMass(walk, 'tanMg', tan.value * central.volumeL);
}
