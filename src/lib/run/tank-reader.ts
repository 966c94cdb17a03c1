import {
	readConcentration,
	readQuantity,
	inUnit,
	readTemperatureC,
	readTemperatureStepC,
	readVolumeL,
	readVolumeLPerDay,
	read,
	unreadable,
	type Read
} from '../units/index.ts';
import { readSalinityCell } from '../water/index.ts';
import type { Reader } from './reader.ts';
import type { Run, Source, Tank } from './run.ts';
import { aerations, conditioners, inhabitants, lightings, substrates } from './vocabulary.ts';

/** Defaults of the trade: NH3-N act level, and nitrate keepers aim at (common practice, no source). */
const NH3_LIMIT_MG_N_PER_L = 0.02;
const NITRATE_LIMIT_MG_PER_L = 10;
const FRESH_SOURCE = 'source water';

const mgPerL = (text: string) => readConcentration(text, 'mass');
const volume = (text: string): Read<number> => {
	const litres = readVolumeL(text);
	return litres.ok && litres.value <= 0 ? unreadable('out-of-range', text, 'a volume over 0 L') : litres;
};

/** Water cleared by a filter; `none` is 0. */
const clearance = (text: string): Read<number> =>
	/^none$/i.test(text.trim()) ? read(0) : readVolumeLPerDay(text);

const minutes = (text: string): Read<number> => {
	const duration = readQuantity(text, 'duration');
	return duration.ok ? read(inUnit(duration.value, 'min')) : duration;
};

/** `place` is `tank` or `spare`. */
export function readTank(reader: Reader, place: string, value: unknown): Tank {
	const tank = reader.object(place, value);
	const at = (key: string) => `${place}.${key}`;
	const cell = <T>(key: string, grammar: (text: string) => Read<T>) =>
		reader.cell(at(key), tank[key], grammar);
	const flag = (key: string) => reader.flag(at(key), tank[key]);
	const heater = reader.object(at('heater'), tank.heater);
	return {
		name: reader.text(at('name'), tank.name) ?? '',
		netL: cell('net', volume),
		grossL: cell('gross', volume),
		temperatureC: cell('temperature', readTemperatureC),
		salinityPpt: cell('salinity', readSalinityCell),
		pH: reader.number(at('pH'), tank.pH, 0, 14, 'a pH from 0 to 14'),
		filterClearsLPerDay: cell('filterClears', clearance) ?? 0,
		ammoniaMgNPerL: cell('ammonia', mgPerL),
		nitrateMgPerL: cell('nitrate', mgPerL),
		evaporatesLPerDay: cell('evaporates', readVolumeLPerDay) ?? 0,
		aeration: reader.word(at('aeration'), tank.aeration, aerations),
		carbon: flag('carbon'),
		resin: flag('resin'),
		uv: flag('uv'),
		skimmer: flag('skimmer'),
		ozone: flag('ozone'),
		substrate: reader.word(at('substrate'), tank.substrate, substrates),
		holds: tank.holds === undefined ? ['fish'] : reader.words(at('holds'), tank.holds, inhabitants),
		lights: reader.word(at('lights'), tank.lights, lightings),
		heaterWithinC: reader.cell(at('heater.holdsWithin'), heater.holdsWithin, readTemperatureStepC),
		conditioner: reader.word(at('conditioner'), tank.conditioner, conditioners) ?? 'none',
		minutes:
			typeof tank.minutes === 'string'
				? cell('minutes', minutes)
				: reader.number(at('minutes'), tank.minutes, 0, 1440, 'minutes a day'),
		lid: reader.absent(tank.lid) ? null : flag('lid')
	};
}

export function readSource(reader: Reader, value: unknown): Source {
	const source = reader.object('source', value);
	const cell = <T>(key: string, grammar: (text: string) => Read<T>) =>
		reader.cell(`source.${key}`, source[key], grammar);
	return {
		name: reader.text('source.name', source.name) ?? FRESH_SOURCE,
		ammoniaMgNPerL: cell('ammonia', mgPerL) ?? 0,
		nitrateMgPerL: cell('nitrate', mgPerL) ?? 0,
		salinityPpt: cell('salinity', readSalinityCell),
		temperatureC: cell('temperature', readTemperatureC),
		pH: reader.number('source.pH', source.pH, 0, 14, 'a pH from 0 to 14'),
		volumeL: cell('volume', readVolumeL),
		mixed: reader.flag('source.mixed', source.mixed)
	};
}

export function readLimits(reader: Reader, value: unknown): Run['limits'] {
	const limits = reader.object('limits', value);
	const above = (text: string): Read<number> => {
		const level = mgPerL(text);
		return level.ok && level.value <= 0 ? unreadable('out-of-range', text, 'a limit over 0 mg/L') : level;
	};
	return {
		nh3MgNPerL: reader.cell('limits.nh3', limits.nh3, above) ?? NH3_LIMIT_MG_N_PER_L,
		nitrateMgPerL: reader.cell('limits.nitrate', limits.nitrate, above) ?? NITRATE_LIMIT_MG_PER_L
	};
}
