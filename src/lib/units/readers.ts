import { readIn, readQuantity, inUnit } from './quantity.ts';
import { read, unreadable, type Read } from './problem.ts';

/** Litres. */
export const readVolumeL = (text: string): Read<number> => readIn(text, 'volume', 'L');
/** Grams. */
export const readMassG = (text: string): Read<number> => readIn(text, 'mass', 'g');
/** Milligrams. */
export const readMassMg = (text: string): Read<number> => readIn(text, 'mass', 'mg');
/** Degrees Celsius. */
export const readTemperatureC = (text: string): Read<number> => readIn(text, 'temperature', 'C');
/** A difference of temperature, in degrees Celsius. */
export const readTemperatureStepC = (text: string): Read<number> => readIn(text, 'temperatureStep', 'C');
/** ppt (psu, g/kg). A gravity needs its reference pair and is read in the water room. */
export const readSalinityPpt = (text: string): Read<number> => readIn(text, 'salinity', 'ppt');
/** Days; `1 d 12 h` adds up. */
export const readDurationDays = (text: string): Read<number> => readIn(text, 'duration', 'd');
/** Minutes. */
export const readMinutes = (text: string): Read<number> => readIn(text, 'duration', 'min');
/** Litres a day. */
export const readVolumeLPerDay = (text: string): Read<number> => readIn(text, 'volumePerDay', 'L/d');
/** Grams a day. */
export const readMassGPerDay = (text: string): Read<number> => readIn(text, 'massPerDay', 'g/d');
/** Milligrams a day. */
export const readMassMgPerDay = (text: string): Read<number> => readIn(text, 'massPerDay', 'mg/d');
/** ppt a day. */
export const readSalinityPptPerDay = (text: string): Read<number> => readIn(text, 'salinityPerDay', 'ppt/d');
/** Centimetres. */
export const readLengthCm = (text: string): Read<number> => readIn(text, 'length', 'cm');
/** mS/cm. */
export const readConductivityMSPerCm = (text: string): Read<number> => readIn(text, 'conductivity', 'mS/cm');

/** 0 to 1, from `20%` or `0.2`. A bare number over 1 is refused: it was meant as percent or is a slip. */
export function readFraction(text: string): Read<number> {
	const fraction = readIn(text, 'fraction', '1');
	if (fraction.ok && fraction.value > 1)
		return unreadable('out-of-range', text, 'a fraction from 0 to 1, such as 20% or 0.2');
	return fraction;
}

/** What the keeper measured out: liquids in mL, powders in mg. */
export function readDoseAmount(text: string): Read<{ value: number; unit: 'mL' | 'mg' }> {
	const quantity = readQuantity(text, ['volume', 'mass']);
	if (!quantity.ok) return quantity;
	return quantity.value.dimension === 'volume'
		? read({ value: inUnit(quantity.value, 'mL'), unit: 'mL' })
		: read({ value: inUnit(quantity.value, 'mg'), unit: 'mg' });
}
