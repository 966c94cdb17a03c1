/** What people see. Expectations are written by hand from the ratios of NIST SP 811. */
import { describe, expect, it } from 'vitest';
import { decimalsOfStep, displayIn, print, type Dimension } from './index.ts';

describe('print', () => {
	it.each([
		[5, 'mL', 1, '5.0 mL'],
		[280, 'mg', undefined, '280 mg'],
		[0.1 + 0.08, 'mg/L', undefined, '0.18 mg/L'],
		[25, 'uL/L', undefined, '25 µL/L'],
		[26, 'C', 1, '26.0 °C'],
		[20, '%', 0, '20 %'],
		[1.025, '', 4, '1.0250'],
		[-0.0001, 'ppt', 1, '0.0 ppt'],
		[-0, 'L', undefined, '0 L'],
		[53, 'mS/cm', undefined, '53 mS/cm']
	])('%d %s with %s decimals is %s', (value, unit, digits, text) =>
		expect(print(value, unit, digits)).toBe(text)
	);
	it.each([
		[0.1, 1],
		[0.25, 2],
		[0.05, 2],
		[0.5, 1],
		[1, 0],
		[10, 0]
	])('a step of %d takes %d decimals', (step, decimals) => expect(decimalsOfStep(step)).toBe(decimals));
});

const shown: [Dimension, number, string, string][] = [
	['volume', 112, '112 L', '29.6 gal'],
	['volume', 0.005, '5.0 mL', '5.0 mL'],
	['volume', 1.5, '1.5 L', '50.7 fl oz'],
	['mass', 280, '280 mg', '280 mg'],
	['mass', 411_000, '411 g', '14.5 oz'],
	['temperature', 26, '26.0 °C', '78.8 °F'],
	['temperatureStep', 1, '1.0 °C', '1.8 °F'],
	['temperature', -2, '-2.0 °C', '28.4 °F'],
	['concentration', 0.18, '0.180 mg/L', '0.180 mg/L'],
	['concentration', 0.0122, '0.0122 mg/L', '0.0122 mg/L'],
	['concentration', 2.5, '2.50 mg/L', '2.50 mg/L'],
	['salinity', 34, '34.0 ppt', '34.0 ppt'],
	['volumePerDay', 40, '40.0 L/d', '10.6 gal/d'],
	['length', 60, '60.0 cm', '23.6 in'],
	['fraction', 0.2, '20.0 %', '20.0 %'],
	['duration', 1.25, '30.0 h', '30.0 h'],
	['duration', 28, '28.0 d', '28.0 d']
];

describe('display', () => {
	it.each(shown)('%s %d reads %s, or %s', (dimension, value, metric, us) => {
		expect(displayIn('metric', dimension, value)).toBe(metric);
		expect(displayIn('us', dimension, value)).toBe(us);
	});
});
