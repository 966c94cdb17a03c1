/** Density, oxygen and conductivity against TEOS-10 as Debian's python3-gsw computes it. Run by `.ci/run`. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
	conductivityFromSalinity,
	densityKgPerM3,
	oxygenSaturationMgPerL
} from '../../src/lib/water/index.ts';

interface Row {
	salinityPpt: number;
	temperatureC: number;
	kgPerM3: number;
	oxygenMgPerL: number;
	conductivityMSPerCm: number;
}

/** Fails, with python's own words, where python3 or gsw is missing. */
const rows = JSON.parse(
	execFileSync('/usr/bin/python3', [join(import.meta.dirname, 'teos10.py')], { encoding: 'utf8' })
) as Row[];

const worst = (apart: (row: Row) => number) => Math.max(...rows.map(apart));
const valueOf = (result: { ok: true; value: number } | { ok: false }) => (result.ok ? result.value : NaN);

describe('against TEOS-10 (python3-gsw), salinity 0 to 40, 15 to 32 °C', () => {
	it('has a grid to compare on', () => expect(rows.length).toBe(21 * 35));

	it('density is within 0.02 kg/m3', () =>
		expect(worst((row) => Math.abs(valueOf(densityKgPerM3(row)) - row.kgPerM3))).toBeLessThan(0.02));

	it('oxygen at saturation is within 0.1 %', () =>
		expect(
			worst((row) => Math.abs(valueOf(oxygenSaturationMgPerL(row)) / row.oxygenMgPerL - 1))
		).toBeLessThan(0.001));

	it('conductivity is within 0.01 mS/cm from 2 ppt up', () =>
		expect(
			worst((row) =>
				row.salinityPpt < 2
					? 0
					: Math.abs(
							valueOf(conductivityFromSalinity(row.salinityPpt, row.temperatureC)) - row.conductivityMSPerCm
						)
			)
		).toBeLessThan(0.01));
});
