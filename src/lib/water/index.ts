export { rangeText, type Range } from './range.ts';
export {
	ammoniaRanges,
	freshBelowPpt,
	kitFromTan,
	nh3N,
	nh3PerN,
	nh4PerN,
	no2PerN,
	no3PerN,
	pKaFreshWater,
	pKaOf,
	pKaSeaWater,
	shareAt,
	tanFromKit,
	unionisedFraction,
	type AmmoniaReading,
	type AmmoniaWater
} from './ammonia.ts';
export { cleggWhitfieldFraction, type PhScale } from './ammonia-scales.ts';
export { age, type WaterRates, type WaterState } from './ageing.ts';
export { densityKgPerM3, densityRanges, ipts68FromIts90 } from './density.ts';
export {
	chlorinityFromSalinity,
	conductivityFromSalinity,
	conductivityRanges,
	mixPpt,
	referenceSalinityGPerKg,
	replaceToLower,
	salinityFromConductivity,
	saltToRaiseG,
	soluteGPerL
} from './salinity.ts';
export {
	bareGravity,
	gravityIn,
	gravityFromSalinity,
	gravityTrap,
	readReferencePair,
	readSalinityCell,
	referencePairs,
	salinityFromGravity,
	type ReferencePair
} from './gravity.ts';
export {
	fishOxygenMgPerKgPerHour,
	formalinDemand,
	formalinOxygenMgPerL,
	oxygenFloorMgPerL,
	oxygenMargin,
	oxygenRanges,
	oxygenSaturationMgPerL,
	oxygenSaturationUmolPerKg
} from './oxygen.ts';
export {
	afterChanges,
	afterFlow,
	changesNeeded,
	dilute,
	fractionNeeded,
	replacedByFlow,
	turnoversToReplace
} from './dilution.ts';
export {
	afterEvaporation,
	dailyChangesSettleAt,
	daysToDecay,
	daysToReach,
	decayed,
	lossPerDay,
	settlesAt,
	tanFromFeedMgPerDay,
	withDailyChanges,
	withInput
} from './kinetics.ts';
export {
	concentrateNeeded,
	copperShareOfPentahydrate,
	doseFor,
	floorToStep,
	formaldehydeMgPerL,
	makeUpFor,
	measuredDose,
	raisedBy,
	stockFromSaltMgPerMl,
	type Dose,
	type DoseWish
} from './dosing.ts';
export { litresPerMm, surfaceCm2, volumeL, type TankShape } from './volume.ts';
export { questions, subjects } from './questions/index.ts';
export type { Answered, Input, Line, Outcome, Question } from './questions/question.ts';
