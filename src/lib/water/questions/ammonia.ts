import {
	read,
	readConcentration,
	readDurationDays,
	readFraction,
	readMassGPerDay,
	readVolumeLPerDay,
	unreadable,
	type Read
} from '../../units/index.ts';
import {
	ammoniaRanges,
	nh3PerN,
	nh4PerN,
	tanFromKit,
	unionisedFraction,
	type AmmoniaReading,
	type AmmoniaWater
} from '../ammonia.ts';
import { settlesAt, tanFromFeedMgPerDay, withInput } from '../kinetics.ts';
import { cleggWhitfieldFraction } from '../ammonia-scales.ts';
import { rangeText } from '../range.ts';
import { pH, salinity, temperature, water } from './inputs.ts';
import { answered, question, type Input, type Line } from './question.ts';

const total: Input<number> = {
	label: 'Total ammonia',
	example: '0.5 mg/L',
	read: (text) => readConcentration(text, 'mass')
};

const kitWords: readonly AmmoniaReading[] = ['tan', 'nh3-total', 'nh4-total', 'nh3-free'];
const as: Input<AmmoniaReading> = {
	label: 'Kit reports',
	example: 'tan',
	otherwise: 'tan',
	choices: kitWords,
	choiceNames: {
		tan: 'total, as N (TAN)',
		'nh3-total': 'total, as NH₃',
		'nh4-total': 'total, as NH₄',
		'nh3-free': 'free NH₃'
	},
	read: (text): Read<AmmoniaReading> => {
		const word = kitWords.find((kit) => kit === text);
		return word ? read(word) : unreadable('choice', text, `one of ${kitWords.join(', ')}`);
	}
};

const range = rangeText(ammoniaRanges.temperature, ammoniaRanges.salinity, ammoniaRanges.pH);
const caveat =
	'The pH is that of a kit or an electrode on ordinary (NBS) buffers. On the total scale the same water reads about 0.1 lower (from memory), and this would then show too little NH3.';

/** The same water by Clegg and Whitfield 1995: which scale the pH is on matters more than which author. */
function comparison(tanMgNPerL: number, water: AmmoniaWater): Line[] {
	return (['free', 'total'] as const).flatMap((scale): Line[] => {
		const share = cleggWhitfieldFraction(water, scale);
		if (!share.ok) return [];
		const label = `NH3-N by Clegg and Whitfield, if pH is on the ${scale} scale`;
		return [{ label, dimension: 'concentration', value: tanMgNPerL * share.value.fraction }];
	});
}

export const ammoniaQuestions = [
	question({
		id: 'ammonia',
		ask: 'ammonia',
		title: 'Toxic ammonia',
		formula:
			'share = 1 / (1 + 10^(pKa - pH)); sea water pKa = 10.0423 - 0.0315536 T + 0.003071 S, below 1 ppt pKa = 0.09018 + 2729.92 / (273.15 + T); T in °C',
		source: 'Bell et al. 2007 and 2008 (sea water, from 1 ppt); Emerson et al. 1975 (fresh water)',
		range,
		caveat,
		inputs: { tan: total, temperature, salinity, pH, as },
		solve: ({ tan, temperature, salinity, pH, as }) => {
			const conditions = { temperatureC: temperature, salinityPpt: salinity, pH };
			const share = unionisedFraction(conditions);
			if (!share.ok) return share;
			const asN = tanFromKit(tan, as, conditions);
			if (!asN.ok) return asN;
			const nh3MgNPerL = asN.value * share.value.fraction;
			return answered(
				{ ...share.value, nh3MgNPerL },
				{ label: 'NH3-N', dimension: 'concentration', value: nh3MgNPerL },
				{ label: 'the same as NH3', dimension: 'concentration', value: nh3MgNPerL * nh3PerN },
				{ label: 'un-ionised share', dimension: 'fraction', value: share.value.fraction },
				{ label: 'pKa', number: share.value.pKa, decimals: 4 },
				...comparison(asN.value, conditions)
			);
		}
	}),
	question({
		id: 'ammonia-kit',
		ask: 'kit',
		title: 'What an ammonia kit reports',
		formula: 'NH3 = 1.2159 x N, NH4 = 1.2879 x N; free NH3 = share x total',
		source: 'atomic weights N 14.007, H 1.008 (IUPAC); share as for toxic ammonia',
		range,
		caveat,
		inputs: { reading: { ...total, label: 'Kit reading' }, as, temperature, salinity, pH },
		solve: ({ reading, as, temperature, salinity, pH }) => {
			const tan = tanFromKit(reading, as, { temperatureC: temperature, salinityPpt: salinity, pH });
			if (!tan.ok) return tan;
			return answered(
				{ tanMgNPerL: tan.value, nh3MgPerL: tan.value * nh3PerN, nh4MgPerL: tan.value * nh4PerN },
				{ label: 'total as N (TAN)', dimension: 'concentration', value: tan.value },
				{ label: 'total as NH3', dimension: 'concentration', value: tan.value * nh3PerN },
				{ label: 'total as NH4', dimension: 'concentration', value: tan.value * nh4PerN }
			);
		}
	}),
	question({
		id: 'buildup',
		ask: 'buildup',
		title: 'How ammonia builds up',
		formula: 'P = feed x protein x 92 mg N/g; dC/dt = P/V - (Q/V) C, solved exactly',
		source: 'feed coefficient: Timmons and Ebeling, from memory (55 to 144 are met); kinetics: first order',
		range: 'any; the feed coefficient is an estimate',
		inputs: {
			volume: water,
			feed: { label: 'Feed eaten', example: '1.6 g/d', read: readMassGPerDay },
			protein: { label: 'Protein in the feed', example: '9%', read: readFraction },
			clears: {
				label: 'Filter clears',
				example: '0 L/d',
				usExample: '0 gal/d',
				otherwise: '0 L/d',
				read: readVolumeLPerDay
			},
			time: { label: 'Time', example: '3 d', read: readDurationDays }
		},
		solve: ({ volume, feed, protein, clears, time }) => {
			const inputPerDay = tanFromFeedMgPerDay(feed, protein) / volume;
			const tanMgNPerL = withInput(0, inputPerDay, clears / volume, time);
			const end = settlesAt(inputPerDay, clears / volume);
			return answered(
				{ tanMgNPerL, madeMgNPerDay: inputPerDay * volume },
				{ label: 'TAN by then', dimension: 'concentration', value: tanMgNPerL },
				{ label: 'ammonia made', dimension: 'massPerDay', value: inputPerDay * volume },
				end === null
					? { label: 'settles at', text: 'nothing: without a filter it rises until water is changed' }
					: { label: 'settles at', dimension: 'concentration', value: end }
			);
		}
	})
];
