import { readConductivityMSPerCm, read, readFraction, readNumber, unreadable } from '../../units/index.ts';
import { densityKgPerM3, densityRanges } from '../density.ts';
import {
	bareGravity,
	gravityFromSalinity,
	readReferencePair,
	salinityFromGravity,
	type ReferencePair
} from '../gravity.ts';
import { rangeText } from '../range.ts';
import {
	conductivityFromSalinity,
	conductivityRanges,
	mixPpt,
	replaceToLower,
	salinityFromConductivity,
	saltToRaiseG
} from '../salinity.ts';
import { positive, reference, salinity, salinityOf, temperature, water } from './inputs.ts';
import { answered, blame, question, type Input } from './question.ts';

const eos80 = 'EOS-80 at one atmosphere, UNESCO Technical Papers in Marine Science 44 (1983)';
const pss78 = 'PSS-78, UNESCO Technical Papers in Marine Science 44 (1983)';
const densityRange = rangeText(densityRanges.temperature, densityRanges.salinity);
const conductivityRange = rangeText(conductivityRanges.temperature, conductivityRanges.salinity);

/** A gravity, which may bring its pair along: `1.025 (25C/25C)`. */
interface TypedGravity {
	value: number;
	pair: ReferencePair | null;
	text: string;
}

const gravity: Input<TypedGravity> = {
	label: 'Specific gravity',
	example: '1.025',
	gravity: true,
	read: (text) => {
		const parts = /^([^\s(@a-z]+)\s*(?:sg|s\.g\.)?\s*(?:at|@)?\s*(.*)$/i.exec(text.trim());
		const number = readNumber((parts?.[1] ?? '').replace(',', '.'));
		if (!number.ok) return unreadable(number.problem.code, text, 'a specific gravity such as 1.025');
		if (!parts?.[2]) return read({ value: number.value, pair: null, text });
		const pair = readReferencePair(parts[2]);
		return pair.ok
			? read({ value: number.value, pair: pair.value, text })
			: { ok: false, problem: { ...pair.problem, seen: text } };
	}
};

/** The pair may stand in the gravity's own field; without any the answer says what the number may mean. */
const pairOrNone: Input<ReferencePair | null> = {
	...reference,
	otherwise: 'none',
	aside: 'unless typed with the gravity',
	read: (text) => (text === 'none' ? read(null) : reference.read(text))
};

export const salinityQuestions = [
	question({
		id: 'salinity-from-gravity',
		ask: 'salinity',
		title: 'Salinity from a specific gravity',
		formula: 'density(S, first temperature) / density(pure water, second temperature), solved for S',
		source: eos80,
		range: '0 to 42 ppt',
		caveat: 'A gravity means nothing without its pair: it is printed on the instrument or in its leaflet.',
		inputs: { gravity, reference: pairOrNone },
		solve: ({ gravity, reference }) => {
			if (reference && gravity.pair && reference.name !== gravity.pair.name) {
				return blame(
					'reference',
					unreadable('reference', reference.name, `the pair typed with the gravity, ${gravity.pair.name}`)
				);
			}
			const pair = reference ?? gravity.pair;
			if (pair === null) return blame('reference', bareGravity(gravity.value, gravity.text));
			const salinityPpt = salinityFromGravity(gravity.value, pair);
			if (!salinityPpt.ok) return salinityPpt;
			return answered(
				{ salinityPpt: salinityPpt.value },
				{ label: 'salinity', dimension: 'salinity', value: salinityPpt.value }
			);
		}
	}),
	question({
		id: 'salinity-from-conductivity',
		ask: 'salinity',
		title: 'Salinity from conductivity',
		formula: 'PSS-78 with R = C / 42.914 mS/cm; t68 = 1.00024 t90',
		source: pss78,
		range: conductivityRange,
		caveat: 'For the raw conductivity at the stated temperature, not one compensated to 25 °C.',
		inputs: {
			conductivity: { label: 'Conductivity', example: '53 mS/cm', read: readConductivityMSPerCm },
			temperature
		},
		solve: ({ conductivity, temperature }) => {
			const salinityPpt = salinityFromConductivity(conductivity, temperature);
			if (!salinityPpt.ok) return salinityPpt;
			return answered(
				{ salinityPpt: salinityPpt.value },
				{ label: 'salinity', dimension: 'salinity', value: salinityPpt.value }
			);
		}
	}),
	question({
		id: 'gravity',
		ask: 'gravity',
		title: 'Specific gravity of a salinity',
		formula: 'density(S, first temperature) / density(pure water, second temperature)',
		source: eos80,
		range: '0 to 42 ppt',
		inputs: { salinity, reference },
		solve: ({ salinity, reference }) => {
			const gravity = gravityFromSalinity(salinity, reference);
			if (!gravity.ok) return gravity;
			return answered(
				{ gravity: gravity.value },
				{ label: reference.name, number: gravity.value, decimals: 4 }
			);
		}
	}),
	question({
		id: 'density',
		ask: 'density',
		title: 'Density',
		formula: 'EOS-80 polynomial in T and S at one atmosphere',
		source: eos80,
		range: densityRange,
		inputs: { salinity, temperature },
		solve: ({ salinity, temperature }) => {
			const density = densityKgPerM3({ salinityPpt: salinity, temperatureC: temperature });
			if (!density.ok) return density;
			return answered({ kgPerM3: density.value }, { label: 'kg/m3', number: density.value, decimals: 3 });
		}
	}),
	question({
		id: 'conductivity',
		ask: 'conductivity',
		title: 'Conductivity of a salinity',
		formula: 'PSS-78 solved for C; t68 = 1.00024 t90',
		source: pss78,
		range: conductivityRange,
		inputs: { salinity, temperature },
		solve: ({ salinity, temperature }) => {
			const conductivity = conductivityFromSalinity(salinity, temperature);
			if (!conductivity.ok) return conductivity;
			return answered(
				{ mSPerCm: conductivity.value },
				{ label: 'conductivity', dimension: 'conductivity', value: conductivity.value }
			);
		}
	}),
	question({
		id: 'salt',
		ask: 'salt',
		title: 'Salt to raise salinity',
		formula: 'V x (solute g/L at the end - at the start); solute = 35.16504/35 x S x density',
		source: `reference salinity, Millero et al. 2008; ${eos80}`,
		range: densityRange,
		caveat: 'Real mixes hold bound water: state their dry share if known; add less, stir, measure, adjust.',
		inputs: {
			volume: water,
			from: salinityOf('Salinity now', '16 ppt'),
			to: salinityOf('Salinity wanted', '20 ppt'),
			temperature: { ...temperature, otherwise: '25 C' },
			dry: {
				label: 'Dry share of the mix',
				example: '100%',
				otherwise: '100%',
				read: positive(readFraction, 'a share above zero, such as 90%')
			}
		},
		solve: ({ volume, from, to, temperature, dry }) => {
			const grams = saltToRaiseG({
				volumeL: volume,
				fromPpt: from,
				toPpt: to,
				temperatureC: temperature,
				dryShare: dry
			});
			if (!grams.ok) return grams.problem.code === 'order' ? blame('to', grams) : grams;
			return answered(
				{ value: grams.value, unit: 'g' },
				{ label: 'salt', dimension: 'mass', value: grams.value * 1000 }
			);
		}
	}),
	question({
		id: 'lower',
		ask: 'lower',
		title: 'Water to lower salinity',
		formula: 'share replaced = (S - target) / (S - new water)',
		source: 'mixing by volume; under 0.1 ppt from mixing by mass',
		range: 'target between the tank and the new water',
		inputs: {
			volume: water,
			from: salinityOf('Salinity now', '35 ppt'),
			to: salinityOf('Salinity wanted', '16 ppt'),
			with: salinityOf('Salinity of the new water', '0 ppt', '0 ppt')
		},
		solve: ({ volume, from, to, with: thinner }) => {
			const share = replaceToLower(from, to, thinner);
			if (!share.ok) return blame('to', share);
			return answered(
				{ fraction: share.value, litres: share.value * volume },
				{ label: 'replace', dimension: 'volume', value: share.value * volume },
				{ label: 'of the tank', dimension: 'fraction', value: share.value }
			);
		}
	}),
	question({
		id: 'mix',
		ask: 'mix',
		title: 'Two waters mixed',
		formula: '(V1 S1 + V2 S2) / (V1 + V2)',
		source: 'mixing by volume; under 0.1 ppt from mixing by mass',
		range: 'any two waters',
		inputs: {
			volume: { ...water, label: 'First volume' },
			salinity: salinityOf('First salinity', '35 ppt'),
			with: { ...water, label: 'Second volume', example: '40 L', usExample: '10 gal' },
			withSalinity: salinityOf('Second salinity', '0 ppt')
		},
		solve: ({ volume, salinity, with: otherL, withSalinity }) => {
			const salinityPpt = mixPpt(
				{ volumeL: volume, salinityPpt: salinity },
				{ volumeL: otherL, salinityPpt: withSalinity }
			);
			return answered({ salinityPpt }, { label: 'salinity', dimension: 'salinity', value: salinityPpt });
		}
	})
];
