/**
 * Water by other people's numbers. Each row: what was asked, what the source prints, how far apart they may be (in
 * the answer's own unit), and the source. Nothing here was computed with the code it tests.
 */
import { describe, expect, it } from 'vitest';
import { inUnit, readQuantity, readStrength, type Dimension } from '../units/index.ts';
import { cleggWhitfieldFraction } from './ammonia-scales.ts';
import {
	afterChanges,
	afterFlow,
	changesNeeded,
	concentrateNeeded,
	copperShareOfPentahydrate,
	dailyChangesSettleAt,
	decayed,
	dilute,
	doseFor,
	formaldehydeMgPerL,
	gravityTrap,
	lossPerDay,
	pKaFreshWater,
	pKaSeaWater,
	replacedByFlow,
	replaceToLower,
	shareAt,
	stockFromSaltMgPerMl,
	turnoversToReplace,
	unionisedFraction,
	volumeL,
	withDailyChanges
} from './index.ts';
import { near, valueOf } from './printed.ts';

const quantity = (text: string, dimension: Dimension, unit: string) =>
	inUnit(valueOf(readQuantity(text, dimension)), unit);

const ifasPermanganate = 'UF/IFAS fact sheet on potassium permanganate, stock-solution section';
const md0173 = 'US Army medical correspondence course MD0173, volumetric calculations, problems 1 and 2';
const wq = 'R package wq, ammFrac manual (Clegg & Whitfield 1995)';
const eos = 'EOS-80 ratios computed with the coefficients of Unesco 44';
const kraul = 'Kraul et al. 1985, Prog. Fish-Cult. 47:69-70';

describe('stock and dose', () => {
	const potassium = quantity('285 g', 'mass', 'mg') / quantity('1 gal', 'volume', 'mL');
	it(`one drop of 285 g per gallon in a gallon is 1 mg/L; ${ifasPermanganate}`, () => {
		const dropMl = quantity('1 drop (20/mL)', 'volume', 'mL');
		near((dropMl * potassium) / quantity('1 gal', 'volume', 'L'), 1.0, 0.01);
	});
	it(`one mL of it in ten gallons is 2 mg/L; ${ifasPermanganate}`, () =>
		near(potassium / quantity('10 gal', 'volume', 'L'), 2.0, 0.02));
	it('3 g of copper sulfate pentahydrate in 750 mL; university extension, result by molar mass', () =>
		near(stockFromSaltMgPerMl(3, copperShareOfPentahydrate, 750), 1.018, 0.002));
	it('copper in the pentahydrate is 25.45 %; 63.546/249.685', () =>
		near(copperShareOfPentahydrate * 100, 25.45, 0.02));
	it('1 mL of formalin in ten gallons is nominally 25 ppm, exactly 26.4172 uL/L; UF/IFAS VM-77', () => {
		const exact = 1000 / quantity('10 gal', 'volume', 'L');
		near(exact, 25, 2);
		near(exact, 26.4172, 0.0005);
		near(exact / 2, 12.5, 1);
	});
	it(`55 gal of 1 % from 48 % takes 1.146 gal; ${md0173}`, () =>
		near(valueOf(concentrateNeeded(55, 1, 48)), 1.146, 0.0005));
	it(`10 lb of 5 % from 80 % takes 0.625 lb, 10 oz; ${md0173}`, () => {
		near(valueOf(concentrateNeeded(10, 5, 80)), 0.625, 0.0001);
		near(quantity('0.625 lb', 'mass', 'oz'), 10, 0.001);
	});
	it('1 ppm is 0.0038 g/gal, 0.0283 g/ft3, 1,233 g or 2.72 lb per acre-foot; conversion sheet crediting Mississippi State University Extension', () => {
		near(quantity('1 gal', 'volume', 'L') / 1000, 0.0038, 5e-5);
		near(quantity('1 ft3', 'volume', 'L') / 1000, 0.0283, 5e-5);
		const acreFootMg = quantity('43560 ft3', 'volume', 'L');
		near(acreFootMg / 1000, 1233, 1);
		near(acreFootMg / quantity('1 lb', 'mass', 'mg'), 2.72, 0.005);
	});
	it('1,230 uL/L of formalin is 455 mg/L formaldehyde; approved label text', () =>
		near(formaldehydeMgPerL(1230), 455, 1));
	it('0.10 to 0.20 mg/L in 100 L from 1 mg/mL is 10 mL; by hand', () => {
		const strength = valueOf(readStrength('1 mg/mL'));
		near(valueOf(doseFor({ volumeL: 100, from: 0.1, to: 0.2, strength })).value, 10, 0.001);
	});
	it('200 L to 0.15 mg/L from 1 mg/mL is 30 mL; the page prints "30 grams" for 30 mg', () => {
		const dose = valueOf(
			doseFor({ volumeL: 200, from: 0, to: 0.15, strength: valueOf(readStrength('1 mg/mL')) })
		);
		expect(dose.unit).toBe('mL');
		near(dose.value, 30, 1e-9);
	});
});

describe('traps', () => {
	const box = (length: string, width: string, depth: string) =>
		valueOf(
			volumeL({
				shape: 'box',
				lengthCm: quantity(length, 'length', 'cm'),
				widthCm: quantity(width, 'length', 'cm'),
				depthCm: quantity(depth, 'length', 'cm')
			})
		) / quantity('1 gal', 'volume', 'L');
	it('a printed answer that is wrong: 16 ft x 30 in x 20 in holds 498.7 gal, not the 469 printed', () => {
		near(box('192 in', '30 in', '20 in'), 498.7, 0.1);
		expect(Math.abs(box('192 in', '30 in', '20 in') - 469)).toBeGreaterThan(25);
	});
	it('72 x 11 x 12 in are 41.143 gal; Mississippi State University Extension prints 41.1', () =>
		near(box('72 in', '11 in', '12 in'), 41.143, 0.001));
	it('kelvin fed to a celsius formula: 0.74 is no pKa of ammonium', () => {
		near(pKaSeaWater(298.15, 35), 0.742, 0.01);
		expect(unionisedFraction({ temperatureC: 298.15, salinityPpt: 35, pH: 8 }).ok).toBe(false);
	});
	it('273 for 273.15 shifts TAN 0.98 at 27.7 °C and pH 8.05 from 0.069961 to 0.069287; R package AmmoniaConcentration', () => {
		near(0.98 * shareAt(pKaFreshWater(27.7), 8.05), 0.069961, 2e-6);
		near(0.98 * shareAt(pKaFreshWater(27.7 - 0.15), 8.05), 0.069287, 2e-6);
	});
	it(`the two pH scales: 5.56 % against 4.40 % at 25 °C, 35 ppt, pH 8; ${wq}`, () => {
		const at = { temperatureC: 25, salinityPpt: 35, pH: 8 };
		near(valueOf(cleggWhitfieldFraction(at, 'total')).fraction, 0.0556, 2e-4);
		near(valueOf(cleggWhitfieldFraction(at, 'free')).fraction, 0.044, 2e-4);
		const bell = valueOf(unionisedFraction(at)).fraction;
		expect(Math.abs(bell - 0.044)).toBeLessThan(Math.abs(bell - 0.0556));
	});
	it('look-alike units: mg/L is no µg/L, and the typed micro sign or Greek mu mean the same', () => {
		near(quantity('150 µg/L', 'concentration', 'mg/L'), 0.15, 1e-12);
		near(quantity('150 \u03bcg/L', 'concentration', 'mg/L'), 0.15, 1e-12);
		near(quantity('0.15 ppm', 'concentration', 'mg/L'), 0.15, 1e-12);
	});
	it(`1.025 is 33.19, 32.59, 32.90, 35.28 or 37.16 ppt by the pair; ${eos}`, () => {
		const trap = Object.fromEntries(
			gravityTrap(1.025).map(({ pair, salinityPpt }) => [pair.name, salinityPpt])
		);
		const printed = { '25C/25C': 33.19, '60F/60F': 32.59, '20C/20C': 32.9, '20C/4C': 35.28, '25C/4C': 37.16 };
		for (const [pair, ppt] of Object.entries(printed)) near(trap[pair] ?? NaN, ppt, 0.02);
	});
});

describe('dilution and wash-out', () => {
	it(`one turnover replaces 63.212 %; ${kraul}`, () => near(replacedByFlow(1), 0.63212, 1e-5));
	it(`95 % of 100 L at 20 L/h takes 14.979 h; ${kraul}`, () =>
		near((valueOf(turnoversToReplace(0.95)) * 100) / 20, 14.979, 0.002));
	it('90 L at 2 L/min for 20 min replaces 35.882 %; R package respirometry, Steffensen 1989', () =>
		near(replacedByFlow((2 * 20) / 90), 0.35882, 1e-5));
	it('10 L at 0.15 L/s to 99 %: 307.011 s continuous, 304.703 s in whole seconds; R package respfun prints 305', () => {
		near((valueOf(turnoversToReplace(0.99)) * 10) / 0.15, 307.011, 0.001);
		near(Math.log(0.01) / Math.log(1 - 0.015), 304.703, 0.001);
	});
	it('three halvings leave 12.5 %, four quarters 31.640625 %; by hand', () => {
		near(afterChanges(1, 0.5, 3), 0.125, 1e-12);
		near(afterChanges(1, 0.25, 4), 0.31640625, 1e-9);
	});
	it('2 to 0.02 mg/L by halves takes 7 changes; ceil(6.644)', () =>
		expect(valueOf(changesNeeded({ from: 2, to: 0.02, fraction: 0.5 })).changes).toBe(7));
	it('2 mg/L, half-life 2 d, 25 %/d exchange, 5 d: 0.1012947; odex 2.0.4', () =>
		near(afterFlow(decayed(2, lossPerDay(2), 5), 0.25 * 5), 0.1012947, 1e-6));
	it('the same with a quarter changed each day: 1.06066, 0.5625, 0.29831, 0.1582, 0.0839; by hand', () => {
		let level = 2;
		for (const printed of [1.06066, 0.5625, 0.29831, 0.1582, 0.0839]) {
			level = dilute(decayed(level, lossPerDay(2), 1), 0.25);
			near(level, printed, 0.0001);
		}
	});
	it('4.14 mg/L a day with a fifth changed: 13.0871 on day 7, 16.56 in the end; geometric series', () => {
		near(withDailyChanges(0, 4.14, 0.2, 7), 13.0871, 0.001);
		near(dailyChangesSettleAt(4.14, 0.2) ?? NaN, 16.56, 0.001);
	});
	it('35 to 16 ppt with fresh water replaces 54.286 %; 1 - 16/35', () =>
		near(valueOf(replaceToLower(35, 16)), 0.54286, 1e-5));
});
