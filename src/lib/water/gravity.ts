import { read, readNumber, readSalinityPpt, unreadable, type Read } from '../units/index.ts';
import { densityRanges, eos80KgPerM3 } from './density.ts';
import { outside } from './range.ts';
import { solveRising } from './solve.ts';

/** Specific gravity is density of the sample at one temperature over that of pure water at another. */
export interface ReferencePair {
	/** as printed: `25C/25C` */
	name: string;
	sampleC: number;
	waterC: number;
}

/** The pairs that hydrometers and refractometers are marked with. */
export const referencePairs: readonly ReferencePair[] = [
	{ name: '60F/60F', sampleC: (28 * 5) / 9, waterC: (28 * 5) / 9 },
	{ name: '20C/20C', sampleC: 20, waterC: 20 },
	{ name: '25C/25C', sampleC: 25, waterC: 25 },
	{ name: '20C/4C', sampleC: 20, waterC: 4 },
	{ name: '25C/4C', sampleC: 25, waterC: 4 }
];

const pairExample = 'a reference pair such as 25C/25C, 20C/4C or 60F/60F';
const pairForm =
	/^\(?\s*(\d+(?:[.,]\d+)?)\s*°?\s*(?:deg)?\s*([cf])?\s*\/\s*(\d+(?:[.,]\d+)?)\s*°?\s*(?:deg)?\s*([cf])?\s*\)?$/i;

/** `25C/25C`, `20 °C / 4 °C`, `60F/60F`, `25/25 C`. A pair without any scale is a problem. */
export function readReferencePair(text: string): Read<ReferencePair> {
	const parts = pairForm.exec(
		text
			.replace(/[\u00ba\u02da]/g, '°')
			.replace(/\u2103/g, 'C')
			.replace(/\u2109/g, 'F')
			.trim()
	);
	const scale = parts?.[2] ?? parts?.[4];
	if (!parts || scale === undefined) return unreadable('reference', text, pairExample);
	const [sample, sampleScale] = [parts[1] ?? '', (parts[2] ?? scale).toUpperCase()];
	const [water, waterScale] = [parts[3] ?? '', (parts[4] ?? scale).toUpperCase()];
	const pair = {
		name: `${sample}${sampleScale}/${water}${waterScale}`,
		sampleC: celsius(sample, sampleScale),
		waterC: celsius(water, waterScale)
	};
	const range = { ...densityRanges.temperature, name: 'reference temperature', low: 0 };
	return outside(range, pair.sampleC) ?? outside(range, pair.waterC) ?? read(pair);
}

const celsius = (text: string, scale: string): number => {
	const number = Number(text.replace(',', '.'));
	return scale === 'F' ? ((number - 32) * 5) / 9 : number;
};

const ratio = (salinityPpt: number, pair: ReferencePair): number =>
	eos80KgPerM3(salinityPpt, pair.sampleC) / eos80KgPerM3(0, pair.waterC);

/** Gravity of a salinity for a reference pair, by EOS-80. 0 to 42 ppt, else a problem. */
export function gravityFromSalinity(salinityPpt: number, pair: ReferencePair): Read<number> {
	return outside(densityRanges.salinity, salinityPpt) ?? read(ratio(salinityPpt, pair));
}

/** Salinity of a gravity for its reference pair, by EOS-80. A problem outside the gravities of 0 to 42 ppt. */
export function salinityFromGravity(gravity: number, pair: ReferencePair): Read<number> {
	const { low, high } = densityRanges.salinity;
	const range = {
		name: `gravity at ${pair.name} (0 to 42 ppt)`,
		unit: '',
		low: round5(ratio(low, pair), Math.floor),
		high: round5(ratio(high, pair), Math.ceil)
	};
	const problem = outside(range, gravity);
	if (problem) return problem;
	return read(solveRising((salinityPpt) => ratio(salinityPpt, pair), gravity, low, high));
}

const round5 = (value: number, way: (x: number) => number): number => way(value * 1e5) / 1e5;

/** The same number read by each pair: shown wherever a gravity is typed. Pairs it cannot belong to are left out. */
export function gravityTrap(gravity: number): { pair: ReferencePair; salinityPpt: number }[] {
	return referencePairs.flatMap((pair) => {
		const salinity = salinityFromGravity(gravity, pair);
		return salinity.ok ? [{ pair, salinityPpt: salinity.value }] : [];
	});
}

const gravityForm = /^(1[.,]\d+|0[.,]99\d*)\s*(?:sg|s\.g\.)?\s*(?:at|@|,|;)?\s*(.*)$/i;

/** The gravity that a text begins with, whatever follows; null when it begins with something else, such as 34 ppt. */
export function gravityIn(text: string): number | null {
	if (readSalinityPpt(text).ok) return null;
	const parts = gravityForm.exec(text.trim());
	const gravity = parts && readNumber((parts[1] ?? '').replace(',', '.'));
	return gravity?.ok ? gravity.value : null;
}

/**
 * A salinity cell: `34 ppt`, `34 psu`, or a gravity with its pair: `1.025 (25C/25C)`, `1.025 sg 20C/4C`. A bare
 * gravity is a problem that says what it would be by each pair.
 */
export function readSalinityCell(text: string): Read<number> {
	const plain = readSalinityPpt(text);
	if (plain.ok) return plain;
	const gravity = gravityIn(text);
	if (gravity === null) return plain;
	const typedPair = gravityForm.exec(text.trim())?.[2];
	if (!typedPair) return bareGravity(gravity, text);
	const pair = readReferencePair(typedPair);
	if (!pair.ok) return unreadable('reference', text, pair.problem.expected);
	const salinity = salinityFromGravity(gravity, pair.value);
	return salinity.ok ? salinity : unreadable(salinity.problem.code, text, salinity.problem.expected);
}

/** The problem of a gravity without its pair, with the salinities it may mean. */
export function bareGravity(gravity: number, text: string): ReturnType<typeof unreadable> {
	const meanings = gravityTrap(gravity).map(
		({ pair, salinityPpt }) => `${salinityPpt.toFixed(1)} ppt at ${pair.name}`
	);
	const listed = meanings.length > 0 ? `: it may be ${meanings.join(', ')}` : '';
	return unreadable('gravity-without-pair', text, `a reference pair, such as 1.025 (25C/25C)${listed}`);
}
