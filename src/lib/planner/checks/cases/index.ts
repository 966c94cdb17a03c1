import type { Case } from './case.ts';
import { equipmentCases } from './equipment.ts';
import { fishCases } from './fish.ts';
import { gapCases } from './gaps.ts';
import { levelCases } from './levels.ts';
import { quantityCases } from './quantities.ts';
import { recordCases } from './record.ts';
import { timingCases } from './timing.ts';
import { typedCases } from './typed.ts';
import { waterCases } from './water.ts';

/** What trips each check, and what comes near and does not. */
export const cases: readonly Case[] = [
	...quantityCases,
	...levelCases,
	...gapCases,
	...fishCases,
	...equipmentCases,
	...waterCases,
	...timingCases,
	...recordCases,
	...typedCases
];
