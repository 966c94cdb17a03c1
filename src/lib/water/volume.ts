import { read, unreadable, type Read } from '../units/index.ts';
import { outsideAny, type Range } from './range.ts';

/** Inner measures in cm. `depthCm` is the depth of the water, not the height of the glass. */
export type TankShape =
	| { shape: 'box'; lengthCm: number; widthCm: number; depthCm: number }
	| { shape: 'cylinder'; diameterCm: number; depthCm: number }
	| { shape: 'hexagon'; sideCm: number; depthCm: number }
	/** a box whose front bulges as an arc of a circle, `bowCm` beyond the straight front at the middle */
	| { shape: 'bow-front'; lengthCm: number; widthCm: number; bowCm: number; depthCm: number };

const side = (name: string): Range => ({ name, unit: 'cm', low: 0.1, high: 2000 });

/** Area of the water's surface, cm2. A bow of more than half the length is no arc and a problem. */
export function surfaceCm2(tank: TankShape): Read<number> {
	if (tank.shape === 'box') {
		const problem = outsideAny([side('length'), tank.lengthCm], [side('width'), tank.widthCm]);
		return problem ?? read(tank.lengthCm * tank.widthCm);
	}
	if (tank.shape === 'cylinder') {
		return outsideAny([side('diameter'), tank.diameterCm]) ?? read((Math.PI * tank.diameterCm ** 2) / 4);
	}
	if (tank.shape === 'hexagon') {
		return outsideAny([side('side'), tank.sideCm]) ?? read(((3 * Math.sqrt(3)) / 2) * tank.sideCm ** 2);
	}
	const bow: Range = { name: 'bow', unit: 'cm', low: 0, high: tank.lengthCm / 2 };
	const problem = outsideAny(
		[side('length'), tank.lengthCm],
		[side('width'), tank.widthCm],
		[bow, tank.bowCm]
	);
	return problem ?? read(tank.lengthCm * tank.widthCm + circleSegmentCm2(tank.lengthCm, tank.bowCm));
}

/** Area between a chord and its arc of height h: r2 (a - sin a)/2 with r = (c2/4 + h2)/(2h). */
function circleSegmentCm2(chordCm: number, heightCm: number): number {
	if (heightCm === 0) return 0;
	const radius = (chordCm ** 2 / 4 + heightCm ** 2) / (2 * heightCm);
	const angle = 4 * Math.atan2(2 * heightCm, chordCm);
	return (radius ** 2 * (angle - Math.sin(angle))) / 2;
}

/** Litres of water in the tank, less what stands in it. Geometry; a problem for impossible measures. */
export function volumeL(tank: TankShape, displacementL = 0): Read<number> {
	const surface = surfaceCm2(tank);
	if (!surface.ok) return surface;
	const problem = outsideAny([side('water depth'), tank.depthCm]);
	if (problem) return problem;
	const grossL = (surface.value * tank.depthCm) / 1000;
	if (!(displacementL >= 0 && displacementL < grossL)) {
		return unreadable(
			'displacement',
			`${displacementL} L`,
			`displacement under the ${Number(grossL.toPrecision(6))} L that fit in`
		);
	}
	return read(grossL - displacementL);
}

/** Litres that one millimetre of level holds: how much was topped off, or evaporated. */
export function litresPerMm(tank: TankShape): Read<number> {
	const surface = surfaceCm2(tank);
	return surface.ok ? read(surface.value / 10 / 1000) : surface;
}
