/**
 * What a cell understands. Rows: the text as typed, then the number in the named unit, or the code of the problem.
 * Ratios of US and imperial units: NIST Special Publication 811, Appendix B (exact where it prints bold).
 */
import { describe, expect, it } from 'vitest';
import {
	inUnit,
	readConductivityMSPerCm,
	readDoseAmount,
	readDurationDays,
	readFraction,
	readLengthCm,
	readMassG,
	readMassGPerDay,
	readMassMg,
	readMassMgPerDay,
	readMinutes,
	readNumber,
	readQuantity,
	readSalinityPpt,
	readSalinityPptPerDay,
	readTemperatureC,
	readTemperatureStepC,
	readVolumeL,
	readVolumeLPerDay,
	type Read
} from './index.ts';

type Reader = (text: string) => Read<number>;
type Rows = readonly (readonly [text: string, means: number | string])[];

function rows(title: string, read: Reader, cases: Rows): void {
	describe(title, () => {
		it.each(cases)('%s is %s', (text, means) => {
			const result = read(text);
			if (typeof means === 'string') {
				expect(result.ok ? result.value : result.problem.code).toBe(means);
				if (!result.ok) expect(result.problem.seen).toBe(text);
			} else {
				if (!result.ok) throw new Error(result.problem.expected);
				expect(Math.abs(result.value - means)).toBeLessThanOrEqual(Math.abs(means) * 1e-12);
			}
		});
	});
}

rows('numbers', readNumber, [
	['8.1', 8.1],
	['8,1', 8.1],
	[' 8.1 ', 8.1],
	['.5', 0.5],
	['5.', 5],
	['+5', 5],
	['-5', -5],
	['\u22125', -5],
	['1e-3', 0.001],
	['1/4', 0.25],
	['1 1/2', 1.5],
	['½', 0.5],
	['0,180', 0.18],
	['1,234,567', 1234567],
	['1,200.5', 1200.5],
	['1.200,5', 1200.5],
	['1,200', 'ambiguous-number'],
	['12,345', 'ambiguous-number'],
	['1/0', 'number'],
	['1.2.3', 'number'],
	['1,2,3', 'number'],
	['1e400', 'number'],
	['NaN', 'number'],
	['Infinity', 'number'],
	['-Infinity', 'number'],
	['0x10', 'number'],
	['1 200', 'number'],
	['10³', 'number'],
	['', 'number'],
	['٣', 'number']
]);

rows('volumes in litres', readVolumeL, [
	['112 L', 112],
	['112L', 112],
	['112\u00a0l', 112],
	['112 litres', 112],
	['1e3 mL', 1],
	['30 gal', 113.56235352],
	['30 US gallons', 113.56235352],
	['1 imp gal', 4.54609],
	['1 UK gal', 4.54609],
	['1 fl oz', 0.0295735295625],
	['1 imp fl oz', 0.0284130625],
	['1 qt', 0.946352946],
	['1 tsp', 0.00492892159375],
	['1/4 tsp', 0.0012322303984375],
	['1 metric tsp', 0.005],
	['1 ft3', 28.316846592],
	['1 cu in', 0.016387064],
	['0.5 m³', 500],
	['5 µL', 5e-6],
	['5 μl', 5e-6],
	['12 drops (20/mL)', 0.0006],
	['12 drops of 0.05 mL', 0.0006],
	['1 drop at 25 per mL', 0.00004],
	['12 drops', 'unit'],
	['12 drops (0/mL)', 'unit'],
	['5 oz', 'unit'],
	['5 ML', 'unit'],
	['5 mg', 'unit'],
	['5', 'unit-missing'],
	['L', 'number'],
	['5 L L', 'unit'],
	['-5 L', 'out-of-range'],
	['1,200 L', 'ambiguous-number'],
	['1 200 L', 'unit'],
	['0x10 L', 'unit'],
	['10³ L', 'unit'],
	['', 'empty'],
	['   ', 'empty']
]);

rows('masses in grams', readMassG, [
	['64 g', 64],
	['280 mg', 0.28],
	['250 mcg', 0.00025],
	['1 kg', 1000],
	['1 oz', 28.349523125],
	['1 lb', 453.59237],
	['1 Mg', 'unit'],
	['1 tsp', 'unit'],
	['1 fl oz', 'unit']
]);
rows('masses in milligrams', readMassMg, [['1.6 g', 1600]]);

rows('temperatures in °C', readTemperatureC, [
	['26 C', 26],
	['26°C', 26],
	['26 ℃', 26],
	['26 ºC', 26],
	['26 degC', 26],
	['26 deg C', 26],
	['26 celsius', 26],
	['-2 C', -2],
	['77 F', 25],
	['77°F', 25],
	['-40 F', -40],
	['273.15 K', 0],
	['298.15 K', 25],
	['26', 'unit-missing'],
	['-300 C', 'out-of-range'],
	['26 R', 'unit']
]);
rows('temperature differences in °C', readTemperatureStepC, [
	['1 C', 1],
	['1.8 F', 1],
	['2 K', 2]
]);

rows('salinities in ppt', readSalinityPpt, [
	['34 ppt', 34],
	['34 PSU', 34],
	['34 g/kg', 34],
	['34 ‰', 34],
	['34', 'unit-missing'],
	['1.025', 'unit-missing'],
	['1.025 sg', 'unit'],
	['53 mS/cm', 'unit'],
	['34 g/L', 'unit'],
	['34 ppm', 'unit']
]);

rows('conductivities in mS/cm', readConductivityMSPerCm, [
	['53 mS/cm', 53],
	['53 ms/cm', 53],
	['53000 µS/cm', 53],
	['5.3 S/m', 53],
	['53 MS/cm', 'unit'],
	['53 mS', 'unit']
]);

rows('durations in days', readDurationDays, [
	['28 d', 28],
	['28 days', 28],
	['30 h', 1.25],
	['90 min', 0.0625],
	['2 weeks', 14],
	['1 d 12 h', 1.5],
	['1 h 30 min', 0.0625],
	// what two slips of the keys leave is not added up
	['5 d35 d', 'unit'],
	['12 h 1 d', 'unit'],
	['5 m', 'unit'],
	['1 d 12', 'unit']
]);
rows('durations in minutes', readMinutes, [
	['1 h', 60],
	['45 min', 45],
	['30 s', 0.5]
]);

rows('flows in L/d', readVolumeLPerDay, [
	['40 L/d', 40],
	['40 L per day', 40],
	['20 L/h', 480],
	['2 gal/h', 181.699765632],
	['2 L/min', 2880],
	['40 L', 'unit'],
	['40 g/d', 'unit']
]);
rows('feed in g/d', readMassGPerDay, [
	['1.6 g/d', 1.6],
	['0.05 oz/day', 1.41747615625]
]);
rows('production in mg/d', readMassMgPerDay, [
	['60 mg/d', 60],
	['0.06 g/d', 60]
]);
rows('rise in ppt/d', readSalinityPptPerDay, [
	['2 ppt/d', 2],
	['2 ppt per day', 2],
	['2 ppt', 'unit']
]);
rows('lengths in cm', readLengthCm, [
	['60 cm', 60],
	['600 mm', 60],
	['0.6 m', 60],
	['24 in', 60.96],
	['24"', 60.96],
	['16 ft', 487.68]
]);
rows('fractions', readFraction, [
	['20%', 0.2],
	['20 %', 0.2],
	['0.2', 0.2],
	['1/4', 0.25],
	['100%', 1],
	['0', 0],
	['20', 'out-of-range'],
	['120%', 'out-of-range'],
	['-5%', 'out-of-range']
]);

describe('a quantity', () => {
	it('keeps the unit and the text that were typed', () => {
		const quantity = readQuantity(' 30  Gal ', 'volume');
		expect(quantity).toEqual({
			ok: true,
			value: { value: 30, unit: 'gal', dimension: 'volume', text: ' 30  Gal ' }
		});
	});
	it('takes the first dimension that fits', () => {
		const read = (text: string) => {
			const quantity = readQuantity(text, ['volume', 'mass']);
			return quantity.ok ? quantity.value.dimension : quantity.problem.expected;
		};
		expect(read('5 mL')).toBe('volume');
		expect(read('5 mg')).toBe('mass');
		expect(read('5 C')).toMatch(/volume.*mass/);
	});
	it('throws when it is asked for in a unit of another dimension: a bug, not a typing error', () => {
		const quantity = readQuantity('5 mL', 'volume');
		expect(() => quantity.ok && inUnit(quantity.value, 'mg')).toThrow('no way from mL to mg');
	});
	it('names the near miss rather than the whole list', () => {
		const expected = (text: string, dimension: 'volume' | 'mass' | 'salinity') => {
			const quantity = readQuantity(text, dimension);
			return quantity.ok ? '' : quantity.problem.expected;
		};
		expect(expected('5 oz', 'volume')).toMatch(/fl oz/);
		expect(expected('5 ML', 'volume')).toMatch(/small m/);
		expect(expected('1 tsp', 'mass')).toMatch(/weigh/);
		expect(expected('1.025', 'salinity')).toMatch(/reference pair/);
	});
	it('doses come in mL or mg', () => {
		expect(readDoseAmount('1 tsp')).toEqual({ ok: true, value: { value: 4.92892159375, unit: 'mL' } });
		expect(readDoseAmount('0.28 g')).toEqual({ ok: true, value: { value: 280, unit: 'mg' } });
		expect(readDoseAmount('5 ppt').ok).toBe(false);
	});
});
