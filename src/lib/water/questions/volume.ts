import { read, type Read } from '../../units/index.ts';
import { litresPerMm, volumeL, type TankShape } from '../volume.ts';
import { count, displacement, length, water } from './inputs.ts';
import { answered, question, type Answered, type Input } from './question.ts';

const source = 'geometry; inner measures, water depth and not the height of the glass';

/** Exact by definition (NIST SP 811). */
const MM_PER_INCH = 25.4;

const shape = (word: TankShape['shape'] | 'filled'): Input<string> => ({
	label: 'Shape',
	example: word,
	otherwise: word,
	choices: [word],
	read: (text) => read(text)
});

const depth = length('Water depth', '35 cm', '14 in');

function volumeAnswer(tank: TankShape, displacementL: number): Read<Answered> {
	const litres = volumeL(tank, displacementL);
	if (!litres.ok) return litres;
	const perMm = litresPerMm(tank);
	return answered(
		{ litres: litres.value },
		{ label: 'water', dimension: 'volume', value: litres.value },
		...(perMm.ok
			? [
					{
						label: 'per mm of level',
						dimension: 'volume' as const,
						value: perMm.value,
						us: { label: 'per inch of level', value: perMm.value * MM_PER_INCH }
					}
				]
			: [])
	);
}

export const volumeQuestions = [
	question({
		id: 'volume-box',
		ask: 'volume',
		title: 'Volume of a box',
		formula: 'length x width x water depth - displacement',
		source,
		range: '0.1 to 2000 cm a side',
		inputs: {
			shape: shape('box'),
			length: length('Length', '60 cm', '24 in'),
			width: length('Width', '30 cm', '12 in'),
			depth,
			displacement
		},
		solve: ({ length, width, depth, displacement }) =>
			volumeAnswer({ shape: 'box', lengthCm: length, widthCm: width, depthCm: depth }, displacement)
	}),
	question({
		id: 'volume-cylinder',
		ask: 'volume',
		title: 'Volume of a cylinder',
		formula: 'pi x diameter2 / 4 x water depth - displacement',
		source,
		range: '0.1 to 2000 cm',
		inputs: { shape: shape('cylinder'), diameter: length('Diameter', '50 cm', '20 in'), depth, displacement },
		solve: ({ diameter, depth, displacement }) =>
			volumeAnswer({ shape: 'cylinder', diameterCm: diameter, depthCm: depth }, displacement)
	}),
	question({
		id: 'volume-hexagon',
		ask: 'volume',
		title: 'Volume of a regular hexagon',
		formula: '3 x sqrt(3) / 2 x side2 x water depth - displacement',
		source,
		range: '0.1 to 2000 cm',
		inputs: { shape: shape('hexagon'), side: length('Side', '30 cm', '12 in'), depth, displacement },
		solve: ({ side, depth, displacement }) =>
			volumeAnswer({ shape: 'hexagon', sideCm: side, depthCm: depth }, displacement)
	}),
	question({
		id: 'volume-bow-front',
		ask: 'volume',
		title: 'Volume with a bow front',
		formula:
			'(length x width + segment of a circle over the length, as high as the bow) x water depth - displacement',
		source,
		range: '0.1 to 2000 cm; bow up to half the length',
		inputs: {
			shape: shape('bow-front'),
			length: length('Length', '90 cm', '36 in'),
			width: length('Width at the ends', '35 cm', '14 in'),
			bow: length('Bow beyond that', '10 cm', '4 in'),
			depth,
			displacement
		},
		solve: ({ length, width, bow, depth, displacement }) =>
			volumeAnswer(
				{ shape: 'bow-front', lengthCm: length, widthCm: width, bowCm: bow, depthCm: depth },
				displacement
			)
	}),
	question({
		id: 'volume-filled',
		ask: 'volume',
		title: 'Volume measured by filling',
		formula: 'bucket x count',
		source: 'the most certain way: count the buckets with everything in place',
		range: 'whole buckets',
		inputs: {
			shape: shape('filled'),
			bucket: { ...water, label: 'Bucket', example: '10 L', usExample: '5 gal' },
			buckets: count('Buckets', '11')
		},
		solve: ({ bucket, buckets }) =>
			answered({ litres: bucket * buckets }, { label: 'water', dimension: 'volume', value: bucket * buckets })
	})
];
