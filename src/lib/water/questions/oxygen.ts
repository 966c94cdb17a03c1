import { readConcentration, readMassG } from '../../units/index.ts';
import { oxygenFloorMgPerL, oxygenMargin, oxygenRanges, oxygenSaturationMgPerL } from '../oxygen.ts';
import { rangeText } from '../range.ts';
import { salinity, temperature, water } from './inputs.ts';
import { answered, question } from './question.ts';

const range = rangeText(oxygenRanges.temperature, oxygenRanges.salinity);

export const oxygenQuestions = [
	question({
		id: 'oxygen',
		ask: 'oxygen',
		title: 'Oxygen at saturation',
		formula: 'ln O2 = polynomial in 1/T - S x (0.017674 - 10.754/T + 2140.7/T2), T in kelvin, at 1 atm',
		source: 'Benson and Krause 1984, Limnol. Oceanogr. 29:620-632',
		range,
		inputs: { temperature, salinity },
		solve: ({ temperature, salinity }) => {
			const saturation = oxygenSaturationMgPerL({ temperatureC: temperature, salinityPpt: salinity });
			if (!saturation.ok) return saturation;
			return answered(
				{ saturationMgPerL: saturation.value },
				{ label: 'saturation', dimension: 'concentration', value: saturation.value }
			);
		}
	}),
	question({
		id: 'oxygen-margin',
		ask: 'margin',
		title: 'Oxygen margin if the air stops',
		formula: `(saturation - ${oxygenFloorMgPerL} mg/L) / (fish 300 mg/kg per hour + formalin: 1 mg/L per 5 uL/L over 36 h)`,
		source:
			'saturation as above; formalin UF/IFAS VM-77, its 36 h judgment; fish rate from memory (150 to 500); floor common practice, no source',
		range,
		caveat: 'An estimate. Never dose formalin without aeration.',
		inputs: {
			volume: water,
			temperature,
			salinity,
			fish: { label: 'Fish aboard', example: '64 g', read: readMassG },
			formalin: {
				label: 'Formalin, whole liquid',
				example: '25 uL/L',
				otherwise: '0 uL/L',
				read: (text) => readConcentration(text, 'whole')
			}
		},
		solve: ({ volume, temperature, salinity, fish, formalin }) => {
			const margin = oxygenMargin({
				volumeL: volume,
				temperatureC: temperature,
				salinityPpt: salinity,
				fishMassG: fish,
				formalinUlPerL: formalin
			});
			if (!margin.ok) return margin;
			const { saturationMgPerL, fishMgPerLPerHour, formalinMgPerLPerHour, hoursWithoutAir } = margin.value;
			return answered(
				{
					saturationMgPerL,
					fishMgPerLPerHour,
					formalinMgPerLPerHour,
					...(hoursWithoutAir === null ? {} : { hoursWithoutAir })
				},
				hoursWithoutAir === null
					? { label: 'without air', text: 'nothing takes oxygen' }
					: { label: 'without air', dimension: 'duration', value: hoursWithoutAir / 24 },
				{ label: 'fish take, mg/L per hour', number: fishMgPerLPerHour, decimals: 3 },
				{ label: 'formalin takes, mg/L per hour', number: formalinMgPerLPerHour, decimals: 3 },
				{ label: 'saturation', dimension: 'concentration', value: saturationMgPerL }
			);
		}
	})
];
