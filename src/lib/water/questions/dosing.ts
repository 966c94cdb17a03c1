import {
	decimalsOfStep,
	inUnit,
	isFormalin,
	print,
	read,
	readMassG,
	readQuantity,
	readFraction,
	readConcentration,
	unreadable,
	type Problem,
	type Quantity,
	type Read,
	type Strength
} from '../../units/index.ts';
import {
	copperShareOfPentahydrate,
	doseFor,
	floorToStep,
	formaldehydeMgPerL,
	raisedBy,
	stockFromSaltMgPerMl,
	type Dose
} from '../dosing.ts';
import { saltToRaiseG } from '../salinity.ts';
import { level, positive, strength, water } from './inputs.ts';
import { answered, blame, question, type Answered, type Input, type Outcome } from './question.ts';

/** A bottle as its label says it; formalin by its formaldehyde is the whole liquid where a level by volume is asked. */
const labelled: Input<{ strength: Strength; formalin: boolean }> = {
	...strength,
	read: (text) => {
		const found = strength.read(text);
		// a bare share may be of any bottle: one that names nothing is asked about
		if (isFormalin(text) && /[a-z]/i.test(text))
			return read({ strength: found.ok ? found.value : wholeLiquid, formalin: true });
		return found.ok ? read({ strength: found.value, formalin: false }) : found;
	}
};
const wholeLiquid: Strength = { form: 'whole', mlPerMl: 1 };

const bottleFor = (
	to: Quantity,
	{ strength, formalin }: { strength: Strength; formalin: boolean }
): Strength => (formalin && readQuantity(to.text, 'volumeShare').ok ? wholeLiquid : strength);

/** The smallest amount the tool measures: a volume or a mass. Absent, nothing is rounded. */
const measure: Input<Quantity | null> = {
	label: 'Smallest step of the tool',
	example: '0.1 mL',
	otherwise: 'none',
	read: (text) => {
		if (text.trim().toLowerCase() === 'none') return read(null);
		const step = readQuantity(text, ['volume', 'mass']);
		return step.ok && step.value.value === 0
			? unreadable('out-of-range', text, 'a step above zero, such as 0.1 mL')
			: step;
	}
};

const clash = (seen: string, expected: string): { ok: false; problem: Problem } =>
	unreadable('unit', seen, expected);

/** A level in the unit a bottle's strength counts by: mg/L, uL/L for a whole liquid (whose ppm is v/v). */
function levelFor(typed: Quantity, bottle: Strength): Read<number> {
	const whole = bottle.form === 'whole';
	const fitting = readQuantity(typed.text, whole ? 'volumeShare' : 'concentration');
	if (fitting.ok) return read(inUnit(fitting.value, whole ? 'uL/L' : 'mg/L'));
	return whole
		? clash(
				typed.text,
				'a share by volume such as 25 uL/L or 25 ppm (v/v): this bottle is counted as whole liquid'
			)
		: clash(typed.text, 'a concentration by mass such as 0.18 mg/L: this bottle is counted by mass');
}

function inStep(dose: Dose, step: Quantity | null): Read<Dose> {
	if (step === null) return read(dose);
	const dimension = dose.unit === 'mL' ? 'volume' : 'mass';
	if (step.dimension !== dimension) return clash(step.text, `a step in ${dose.unit}, as the dose is`);
	return read({ ...dose, value: floorToStep(dose.value, inUnit(step, dose.unit)) });
}

/** Salt is asked for in ppt and weighed in grams. */
function salt(
	volumeL: number,
	from: Quantity,
	to: Quantity,
	bottle: Strength,
	step: Quantity | null
): Read<Answered> | Outcome {
	if (from.dimension !== 'salinity') return blame('from', clash(from.text, `a salinity, as ${to.text} is`));
	if (bottle.form !== 'powder')
		return blame('strength', clash('a liquid', 'the strength of the dry salt, such as 1 g/g'));
	const [fromPpt, toPpt] = [inUnit(from, 'ppt'), inUnit(to, 'ppt')];
	const grams = saltToRaiseG({ volumeL, fromPpt, toPpt, temperatureC: 25, dryShare: bottle.gPerG });
	if (!grams.ok) return blame('to', grams);
	if (step !== null && step.dimension !== 'mass')
		return blame('measure', clash(step.text, 'a mass, as salt is weighed'));
	const value = floorToStep(grams.value, step === null ? null : inUnit(step, 'g'));
	return answered({ value, unit: 'g' }, { label: 'salt', dimension: 'mass', value: value * 1000 });
}

/** A medicine from one level to another, as the tool can measure it. */
function medicine(
	volumeL: number,
	from: Quantity | null,
	to: Quantity,
	bottle: Strength,
	step: Quantity | null
): Read<Answered> | Outcome {
	const low = from === null ? read(0) : levelFor(from, bottle);
	if (!low.ok) return blame('from', low);
	const high = levelFor(to, bottle);
	if (!high.ok) return blame('to', high);
	const exact = doseFor({ volumeL, from: low.value, to: high.value, strength: bottle });
	if (!exact.ok) return blame('to', exact);
	const dose = inStep(exact.value, step);
	if (!dose.ok) return blame('measure', dose);
	const { value, unit } = dose.value;
	return answered(
		{ value, unit },
		{
			label: 'measure out',
			text: step === null ? print(value, unit) : print(value, unit, decimalsOfStep(inUnit(step, unit)))
		},
		{
			label: 'raises by',
			dimension: bottle.form === 'whole' ? 'volumeShare' : 'concentration',
			value: raisedBy(value, bottle, volumeL)
		}
	);
}

export const dosingQuestions = [
	question({
		id: 'dose',
		ask: 'dose',
		title: 'Dose, or top-up from a measured level',
		formula: '(wanted - measured) x V / strength; rounded down to the tool’s step',
		source: 'mass balance; formalin counted as the whole liquid (UF/IFAS VM-77)',
		range: 'wanted level not below the measured one',
		caveat:
			'ppm is mg/L; for a liquid counted whole (1 mL/mL, formalin) it is uL/L by volume, as the trade does. The bottle’s label and a vet come first.',
		inputs: {
			volume: water,
			from: level('Level now', '0 mg/L'),
			to: level('Level wanted', '0.18 mg/L'),
			strength: labelled,
			measure
		},
		solve: ({ volume, from, to, strength, measure }) =>
			to.dimension === 'salinity'
				? salt(volume, from, to, strength.strength, measure)
				: medicine(volume, from, to, bottleFor(to, strength), measure)
	}),
	question({
		id: 'stock',
		ask: 'stock',
		title: 'Stock solution from a salt',
		formula: 'salt x active share / volume; copper sulfate pentahydrate is 25.45 % copper',
		source: 'atomic weights: 63.546 / 249.685',
		range: 'active share above 0 up to 100 %',
		caveat:
			'Copper salts harm skin, eyes and water life: gloves, goggles, and a labelled bottle out of reach.',
		inputs: {
			salt: { label: 'Salt', example: '3 g', read: positive(readMassG, 'a mass above zero, such as 3 g') },
			volume: { ...water, label: 'Made up to', example: '750 mL', usExample: '750 mL' },
			active: {
				label: 'Active share by mass',
				example: '25.45%',
				otherwise: `${copperShareOfPentahydrate * 100}%`,
				aside: 'else that of copper in copper sulfate pentahydrate',
				read: positive(readFraction, 'a share above zero, such as 25.45%')
			}
		},
		solve: ({ salt, volume, active }) => {
			const mgPerMl = stockFromSaltMgPerMl(salt, active, volume * 1000);
			return answered({ mgPerMl }, { label: 'strength', dimension: 'strength', value: mgPerMl });
		}
	}),
	question({
		id: 'strength',
		ask: 'strength',
		title: 'Strength from a label',
		formula: 'level x water / amount: 1 mL per 40 L gives 0.25 mg/L is 10 mg/mL',
		source: 'mass balance',
		range: 'above zero, at most 100 %',
		inputs: { strength: { ...strength, label: 'Label', example: '1 mL per 40 L gives 0.25 mg/L' } },
		solve: ({ strength }) => {
			const [value, unit] =
				strength.form === 'liquid'
					? ([strength.mgPerMl, 'mg/mL'] as const)
					: strength.form === 'powder'
						? ([strength.gPerG, 'g/g'] as const)
						: ([strength.mlPerMl, 'mL/mL'] as const);
			return answered({ value, unit }, { label: 'strength', text: print(value, unit) });
		}
	}),
	question({
		id: 'makeup',
		ask: 'makeup',
		title: 'Make-up for new water',
		formula: 'level x new water / strength',
		source: 'mass balance: only the new water is dosed',
		range: 'any level',
		inputs: {
			volume: { ...water, label: 'New water', example: '30 L', usExample: '8 gal' },
			to: level('Level to hold', '0.18 mg/L'),
			strength: labelled,
			measure
		},
		solve: ({ volume, to, strength, measure }) => medicine(volume, null, to, bottleFor(to, strength), measure)
	}),
	question({
		id: 'formaldehyde',
		ask: 'formaldehyde',
		title: 'Formaldehyde behind a formalin level',
		formula: 'uL/L x 0.37 mg/uL',
		source: 'approved label text: 1,230 uL/L is 455 mg/L',
		range: 'formalin of about 37 % formaldehyde',
		caveat:
			'Only to compare with papers: doses count the whole liquid and are never divided by 0.37. Toxic and carcinogenic.',
		inputs: {
			level: {
				label: 'Formalin, whole liquid',
				example: '25 uL/L',
				read: (text: string) => readConcentration(text, 'whole')
			}
		},
		solve: ({ level }) => {
			const mgPerL = formaldehydeMgPerL(level);
			return answered({ mgPerL }, { label: 'formaldehyde', dimension: 'concentration', value: mgPerL });
		}
	})
];
