export { read, unreadable, type Problem, type Read } from './problem.ts';
export { canonicalUnit, zeroCelsiusK, type Dimension } from './ratios.ts';
export { readNumber } from './number.ts';
export { convert, expectedFor, inUnit, readIn, readQuantity, type Quantity } from './quantity.ts';
export {
	readConductivityMSPerCm,
	readDoseAmount,
	readDurationDays,
	readFraction,
	readLengthCm,
	readMassG,
	readMassGPerDay,
	readMassMg,
	readMassMgPerDay,
	readMinutes,
	readSalinityPpt,
	readSalinityPptPerDay,
	readTemperatureC,
	readTemperatureStepC,
	readVolumeL,
	readVolumeLPerDay
} from './readers.ts';
export {
	readConcentration,
	readConcentrationBand,
	readConcentrationQuantity,
	type Counted,
	type Levels
} from './concentration.ts';
export { isFormalin, readStrength, type Strength } from './strength.ts';
export { decimalsOfStep, displayIn, print, type UnitSystem } from './display.ts';
export { sentenceIn } from './sentence.ts';
