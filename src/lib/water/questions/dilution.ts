import {
	inUnit,
	print,
	readConcentration,
	readDurationDays,
	readFraction,
	readVolumeL,
	readVolumeLPerDay,
	unreadable
} from '../../units/index.ts';
import {
	afterChanges,
	afterFlow,
	changesNeeded,
	fractionNeeded,
	replacedByFlow,
	turnoversToReplace
} from '../dilution.ts';
import { afterEvaporation, daysToDecay, decayed, lossPerDay } from '../kinetics.ts';
import { count, fraction, level, positive, salinity, samePair, water } from './inputs.ts';
import { answered, blame, question } from './question.ts';

const batch = 'mass balance, well mixed: C (1 - f)^n';
const flow = 'Kraul et al. 1985, Prog. Fish-Cult. 47:69-70';
const time = { label: 'Time', example: '3 d', read: readDurationDays };

export const dilutionQuestions = [
	question({
		id: 'changes',
		ask: 'changes',
		title: 'Water changes to come down',
		formula: 'n = ceil( ln(target / level) / ln(1 - f) ); left: level x (1 - f)^n',
		source: batch,
		range: 'fraction above 0 up to 1, target above 0',
		caveat: 'The new water holds none of it. Clear is what the kit shows, not the forecast alone.',
		inputs: { from: level('Level now', '2 mg/L'), to: level('Level wanted', '0.02 mg/L'), fraction },
		solve: ({ from, to, fraction }) => {
			const pair = samePair(from, to);
			if (!pair.ok) return blame('to', pair);
			const level = pair.value.from;
			const target = inUnit(pair.value.to, level.unit);
			const needed = changesNeeded({ from: level.value, to: target, fraction });
			if (!needed.ok) return blame(needed.problem.code === 'no-change' ? 'fraction' : 'to', needed);
			const { changes, residual } = needed.value;
			return answered(
				{ changes, residual },
				{ label: 'changes', number: changes, decimals: 0 },
				{ label: 'left', text: print(residual, level.unit) }
			);
		}
	}),
	question({
		id: 'change-size',
		ask: 'size',
		title: 'How large each change must be',
		formula: 'f = 1 - (target / level)^(1/n)',
		source: batch,
		range: 'one change or more, target above 0 or a whole change',
		inputs: {
			from: level('Level now', '2 mg/L'),
			to: level('Level wanted', '0.02 mg/L'),
			changes: count('Changes', '7')
		},
		solve: ({ from, to, changes }) => {
			const pair = samePair(from, to);
			if (!pair.ok) return blame('to', pair);
			const level = pair.value.from;
			const target = inUnit(pair.value.to, level.unit);
			const needed = fractionNeeded({ from: level.value, to: target, changes });
			if (!needed.ok) return blame('to', needed);
			return answered(
				{ fraction: needed.value },
				{ label: 'each change', dimension: 'fraction', value: needed.value },
				{ label: 'left', text: print(afterChanges(level.value, needed.value, changes), level.unit) }
			);
		}
	}),
	question({
		id: 'drip',
		ask: 'drip',
		title: 'Dripping water through',
		formula: 'replaced = 1 - exp(-flow t / V)',
		source: flow,
		range: 'well mixed, steady flow',
		inputs: {
			volume: water,
			flow: { label: 'Flow', example: '20 L/h', usExample: '5 gal/h', read: readVolumeLPerDay },
			time: { ...time, example: '15 h' }
		},
		solve: ({ volume, flow, time }) => {
			const share = replacedByFlow((flow * time) / volume);
			return answered(
				{ fraction: share, litres: flow * time },
				{ label: 'replaced', dimension: 'fraction', value: share },
				{ label: 'water used', dimension: 'volume', value: flow * time },
				{ label: 'left of 1 mg/L', dimension: 'concentration', value: afterFlow(1, (flow * time) / volume) }
			);
		}
	}),
	question({
		id: 'drip-time',
		ask: 'drip',
		title: 'How long to drip',
		formula: 't = -ln(1 - replaced) V / flow',
		source: flow,
		range: 'share from 0 to below 1',
		inputs: {
			volume: water,
			flow: {
				label: 'Flow',
				example: '20 L/h',
				usExample: '5 gal/h',
				read: positive(readVolumeLPerDay, 'a flow above zero, such as 20 L/h')
			},
			fraction: { label: 'Share to replace', example: '95%', read: readFraction }
		},
		solve: ({ volume, flow, fraction }) => {
			const turnovers = turnoversToReplace(fraction);
			if (!turnovers.ok) return turnovers;
			const days = (turnovers.value * volume) / flow;
			return answered(
				{ days, litres: days * flow },
				{ label: 'time', dimension: 'duration', value: days },
				{ label: 'water used', dimension: 'volume', value: days * flow }
			);
		}
	}),
	question({
		id: 'loss',
		ask: 'loss',
		title: 'A medicine that fades',
		formula: 'C = C0 x exp(-ln 2 t / half-life)',
		source: 'first-order loss',
		range: 'half-life above zero',
		inputs: {
			from: { label: 'Level now', example: '2 mg/L', read: (text) => readConcentration(text, 'mass') },
			halfLife: {
				label: 'Half-life',
				example: '2 d',
				read: positive(readDurationDays, 'a half-life above zero, such as 2 d')
			},
			time
		},
		solve: ({ from, halfLife, time }) => {
			const rate = lossPerDay(halfLife);
			const mgPerL = decayed(from, rate, time);
			const tenth = daysToDecay(from, from / 10, rate);
			return answered(
				{ mgPerL },
				{ label: 'left', dimension: 'concentration', value: mgPerL },
				...(tenth.ok && from > 0
					? [{ label: 'down to a tenth after', dimension: 'duration' as const, value: tenth.value }]
					: [])
			);
		}
	}),
	question({
		id: 'evaporation',
		ask: 'evaporation',
		title: 'Evaporation',
		formula: 'S = S0 V / (V - e t); topped off with fresh water it is S0 again',
		source: 'mass balance: salt and medicine stay behind',
		range: 'less than the whole tank',
		inputs: {
			volume: water,
			salinity,
			evaporates: {
				label: 'Evaporates',
				example: '1.5 L/d',
				usExample: '0.4 gal/d',
				read: readVolumeLPerDay
			},
			time: { ...time, example: '4 d' }
		},
		solve: ({ volume, salinity, evaporates, time }) => {
			const ppt = afterEvaporation(salinity, volume, evaporates, time);
			if (!ppt.ok) return ppt;
			return answered(
				{ salinityPpt: ppt.value, litres: evaporates * time },
				{ label: 'salinity', dimension: 'salinity', value: ppt.value },
				{ label: 'top off with fresh water', dimension: 'volume', value: evaporates * time }
			);
		}
	}),
	question({
		id: 'topoff',
		ask: 'level-drop',
		title: 'Copper or medicine after a top-off',
		formula: 'C after = C before x V shrunken / V full',
		source: 'mass balance: a reading taken before the top-off belongs to the shrunken volume',
		range: 'shrunken volume up to the full one',
		inputs: {
			reading: { label: 'Reading', example: '0.12 mg/L', read: (text) => readConcentration(text, 'mass') },
			shrunken: { label: 'Volume when read', example: '106 L', usExample: '28 gal', read: readVolumeL },
			volume: { ...water, label: 'Full volume' }
		},
		solve: ({ reading, shrunken, volume }) => {
			if (shrunken > volume)
				return blame(
					'shrunken',
					unreadable('out-of-range', `${shrunken} L`, `a volume up to the full ${volume} L`)
				);
			const mgPerL = (reading * shrunken) / volume;
			return answered({ mgPerL }, { label: 'after the top-off', dimension: 'concentration', value: mgPerL });
		}
	})
];
