/** Shapes against geometry that does not use the code's own formulas: numeric integration, limits, and hand-made boxes. */
import { describe, expect, it } from 'vitest';
import { litresPerMm, surfaceCm2, volumeL, type TankShape } from './index.ts';

const litres = (tank: TankShape, displacementL = 0) => {
	const volume = volumeL(tank, displacementL);
	if (!volume.ok) throw new Error(volume.problem.expected);
	return volume.value;
};

describe('volume', () => {
	it('60 x 30 x 35 cm hold 63 L, 58 beside 5 L of rock; by hand', () => {
		const box: TankShape = { shape: 'box', lengthCm: 60, widthCm: 30, depthCm: 35 };
		expect(litres(box)).toBeCloseTo(63, 12);
		expect(litres(box, 5)).toBeCloseTo(58, 12);
		expect(litresPerMm(box)).toEqual({ ok: true, value: 0.18 });
	});
	it('a cylinder of 20 cm by 10 cm holds pi litres', () =>
		expect(litres({ shape: 'cylinder', diameterCm: 20, depthCm: 10 })).toBeCloseTo(Math.PI, 12));
	it('a hexagon is six triangles of half side times apothem', () => {
		const side = 30;
		const apothem = side * Math.cos(Math.PI / 6);
		const area = (6 * side * apothem) / 2;
		expect(litres({ shape: 'hexagon', sideCm: side, depthCm: 40 })).toBeCloseTo((area * 40) / 1000, 9);
	});
	it('a bow of half the length is half a disc, a bow of nothing a box', () => {
		const bow = (bowCm: number): TankShape => ({
			shape: 'bow-front',
			lengthCm: 90,
			widthCm: 35,
			bowCm,
			depthCm: 40
		});
		expect(litres(bow(45))).toBeCloseTo(((90 * 35 + (Math.PI * 45 ** 2) / 2) * 40) / 1000, 9);
		expect(litres(bow(0))).toBeCloseTo((90 * 35 * 40) / 1000, 12);
	});
	it('a bow of 10 cm over 90 cm is what strips of 0.001 cm add up to', () => {
		const radius = (45 ** 2 + 10 ** 2) / 20;
		let strips = 0;
		for (let x = -45 + 0.0005; x < 45; x += 0.001) strips += Math.sqrt(radius ** 2 - x ** 2) - (radius - 10);
		const surface = surfaceCm2({ shape: 'bow-front', lengthCm: 90, widthCm: 35, bowCm: 10, depthCm: 40 });
		expect(surface.ok && surface.value).toBeCloseTo(90 * 35 + strips * 0.001, 3);
	});
	it('refuses what cannot be: no depth, a bow past half a disc, more rock than water', () => {
		expect(volumeL({ shape: 'box', lengthCm: 60, widthCm: 30, depthCm: 0 }).ok).toBe(false);
		expect(volumeL({ shape: 'box', lengthCm: NaN, widthCm: 30, depthCm: 30 }).ok).toBe(false);
		expect(volumeL({ shape: 'bow-front', lengthCm: 90, widthCm: 35, bowCm: 46, depthCm: 40 }).ok).toBe(false);
		expect(volumeL({ shape: 'box', lengthCm: 60, widthCm: 30, depthCm: 35 }, 63).ok).toBe(false);
		expect(volumeL({ shape: 'box', lengthCm: 60, widthCm: 30, depthCm: 35 }, -1).ok).toBe(false);
	});
});
