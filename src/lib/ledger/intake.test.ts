import { describe, expect, it } from 'vitest';
import { bagAmmonia, bagLine, salinityPath, sickTracks } from './intake.ts';

const bag = { temperatureC: 24, salinityPpt: 27, pH: 6.8, ammoniaMgPerL: 8 };

describe('the water of a shipping bag', () => {
	it('is harmless at its own pH and is not at the tank’s', () => {
		// a long-shipped bag of TAN 8 mg/L at 24 °C and 27 ppt: NH3-N 0.022 at pH 6.8, 0.21 at 7.8 (an aquatic
		// veterinarian’s example, from memory); by hand with Bell et al. 2007: pKa 9.3679, 8/(1+10^2.5679) = 0.02158
		const read = bagAmmonia(bag, 7.8);
		expect(read).toMatchObject({
			ok: true,
			value: { inBag: expect.closeTo(0.02158, 4), atTankPh: expect.closeTo(0.2107, 3) }
		});
	});

	it('counts a kit that gives ammonia as NH3', () => {
		// 8 mg/L as NH3 is 8 · 14.007/17.031 = 6.58 mg/L as N
		const read = bagAmmonia({ ...bag, as: 'nh3-total' }, null);
		expect(read).toMatchObject({
			ok: true,
			value: { inBag: expect.closeTo((0.02158 * 14.007) / 17.031, 4), atTankPh: null }
		});
	});

	it('tells nothing while one of its four readings is missing', () => {
		for (const key of ['temperatureC', 'salinityPpt', 'pH', 'ammoniaMgPerL'] as const) {
			const { [key]: _gone, ...rest } = bag;
			expect(bagAmmonia(rest, 8)).toBeNull();
		}
	});

	it('is said in one line', () => {
		expect(bagLine({ ...bag, count: 5, massG: 64 })).toBe(
			'arrived in a bag of 24 °C, 27 ppt, pH 6.8, ammonia 8 mg/L as TAN, 5 fish, 64 g'
		);
		expect(bagLine({})).toBe('arrived in a bag of unread water');
	});
});

describe('salinity', () => {
	it.each([
		[27, 34, { startPpt: 27, days: 4, first: 'lower' }],
		[33.5, 34, { startPpt: 34, days: 0, first: 'nothing' }],
		[36, 34, { startPpt: 36, days: 0, first: 'raise' }],
		[30, 34, { startPpt: 30, days: 2, first: 'lower' }]
	])('a bag of %d ppt into a tank of %d', (from, to, path) => {
		expect(salinityPath(from, to)).toEqual(path);
	});
});

describe('signs at the door', () => {
	it('gold dust and fast breathing point to velvet, which transfers and low salinity do not reach', () => {
		const [first] = sickTracks(['gold-dust', 'fast-breathing'], 'tang');
		expect(first?.suspect.target).toBe('amyloodinium');
		expect(first?.missedBy.map(({ name }) => name).join()).toMatch(/transfer/i);
		expect(first?.missedBy.map(({ name }) => name).join()).toMatch(/salinity/i);
		expect(first?.courses.length).toBeGreaterThan(0);
	});

	it('haze on a clownfish points to the skin ciliate, which copper does not reach', () => {
		const [first] = sickTracks(['haze'], 'clownfish');
		expect(first?.suspect.target).toBe('brooklynella');
		expect(first?.missedBy.map(({ name }) => name).join()).toMatch(/copper/i);
		expect(first?.courses.map(({ id }) => id)).toContain('ciliate-bath');
	});

	it('no signs point nowhere', () => {
		expect(sickTracks([], null)).toEqual([]);
		expect(sickTracks(['none'], null)).toEqual([]);
	});
});
