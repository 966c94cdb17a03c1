// Figures seen in the publication named beside each row, typed here a second time.
import { describe, expect, it } from 'vitest';
import {
	gapBounds,
	medicines,
	methods,
	parasites,
	stay,
	type StageRow,
	type Target,
	type UseRow
} from './index.ts';

const use = (rows: readonly UseRow[], of: RegExp): UseRow => {
	const found = rows.filter((row) => row.mark === 'P' && of.test(row.of));
	expect(found).toHaveLength(1);
	return found[0] as UseRow;
};

const stage = (target: Target, name: string, temperatureC: StageRow['temperatureC'] = null): StageRow => {
	const found = parasites[target].stages.filter(
		(row) =>
			row.mark === 'P' &&
			row.stage === name &&
			JSON.stringify(row.temperatureC) === JSON.stringify(temperatureC)
	);
	expect(found).toHaveLength(1);
	return found[0] as StageRow;
};

describe('levels and courses', () => {
	const cu = medicines['copper-ionic'];
	const form = medicines.formalin;
	const pzq = medicines.praziquantel;

	it('ionic copper 0.18 to 0.20 mg/L for up to 21 days (Merck Veterinary Manual, parasiticide text)', () => {
		expect(use(cu.uses, /upper end/)).toMatchObject({ level: { low: 0.18, high: 0.2 }, days: { high: 21 } });
		expect(cu.window?.value).toEqual({ low: 0.15, high: 0.2 });
		expect(cu.ceiling?.value).toBe(0.2);
	});

	it('copper kills half of juvenile red drum in 96 h at 0.28 to 0.88 mg/L (Frese 1994)', () => {
		expect(cu.toxicity).toContainEqual(
			expect.objectContaining({
				level: { low: 0.28, high: 0.88 },
				hours: 96,
				source: 'Frese 1994, thesis abstract, FIU'
			})
		);
	});

	it('formalin, prolonged bath, 15 to 25 (UF/IFAS VM-77; Merck)', () => {
		expect(use(form.uses, /^prolonged/).level).toEqual({ low: 15, high: 25 });
		expect(form.window?.value).toEqual({ low: 15, high: 25 });
		expect(form.ceiling?.value).toBe(25);
	});

	it('formalin, bath up to 60 min: 250, above 21 °C 150 (UF/IFAS VM-77)', () => {
		expect(form.bath?.ceiling?.value).toBe(250);
		expect(form.bath?.warm?.value).toEqual({ aboveC: 21, ceiling: 150 });
		expect(form.bath?.minutes.value.high).toBe(60);
	});

	it('formalin label, finfish other than salmonids: 250 uL/L for 1 h (Merck, table of immersion drugs)', () => {
		expect(form.unit).toBe('uL/L');
		expect(use(form.uses, /label, finfish/)).toMatchObject({ level: { high: 250 }, hours: { high: 1 } });
	});

	it('formalin takes 5 mg/L of oxygen per 25 mg/L, here over 36 h (UF/IFAS VM-77; the hours are from memory)', () => {
		const demand = form.oxygenDemand?.value;
		expect(demand?.perLevel).toBe(25);
		expect((demand?.mgPerLPerHour ?? NaN) * 36).toBeCloseTo(5, 9);
		expect(demand?.mgPerLPerHour).toBeCloseTo(0.14, 2);
	});

	it('praziquantel 2 mg/L, two doses 4 days apart (Neobenedenia melleni, Brazil 2019)', () => {
		expect(use(pzq.uses, /ornamentals/)).toMatchObject({
			level: { low: 2, high: 2 },
			doses: { low: 2, high: 2 },
			gapDays: { low: 4, high: 4 }
		});
	});

	it('praziquantel 2 mg/L for 30 h (West Australian dhufish 2003)', () => {
		expect(use(pzq.uses, /marine gill/)).toMatchObject({
			level: { low: 2, high: 2 },
			hours: { low: 30, high: 30 }
		});
		expect(pzq.contactHours.value).toBe(30);
	});

	it('praziquantel from 2 mg/L: none found on day 8, then 2, then 2 (Thomas et al. 2016)', () => {
		const days = [/first treatment/, /second treatment/, /third treatment/].map((of) => use(pzq.uses, of));
		expect(days.map((row) => row.days?.low)).toEqual([8, 2, 2]);
		expect(days.every((row) => row.level?.low === 2)).toBe(true);
		const half = pzq.loss.value.greatestHalfLifeDays ?? NaN;
		const afterTwoDays = 2 * 2 ** (-2 / half);
		expect(afterTwoDays).toBeLessThan(0.05);
		expect(pzq.loss.value.leastHalfLifeDays).toBeNull();
	});

	it('chloroquine 15 raised to 20 mg/L, 4 weeks, 30 % change on day 3 (Gili et al. 1998)', () => {
		const row = use(medicines.chloroquine.uses, /dark/);
		expect(row).toMatchObject({ level: { low: 15, high: 20 }, days: { low: 28, high: 28 } });
		expect(row.of).toContain('30 % change on day 3');
	});

	it('levamisole 2 mg/L for 24 h, again in 2 to 3 weeks (UF/IFAS nematode sheet)', () => {
		expect(use(medicines.levamisole.uses, /roundworms/)).toMatchObject({
			level: { low: 2, high: 2 },
			hours: { low: 24, high: 24 },
			gapDays: { low: 14, high: 21 }
		});
		expect(gapBounds('worms', 10)).toMatchObject({ ok: true, value: { earliestDays: 14, latestDays: 22 } });
	});

	it('hydrogen peroxide 75 mg/L for 30 min (Aquaculture 2017, Seriola dumerili)', () => {
		expect(use(medicines['hydrogen-peroxide'].uses, /Seriola/)).toMatchObject({
			level: { low: 75, high: 75 },
			minutes: { low: 30, high: 30 }
		});
	});

	it('low salinity against Cryptocaryon 16 to 18 (Merck); 10 ppt, 3 h, 4 times, 3 days apart (Colorni 1985)', () => {
		const { uses } = methods['low-salinity'];
		expect(use(uses, /guidance/).level).toEqual({ low: 16, high: 18 });
		expect(use(uses, /four baths/)).toMatchObject({
			level: { low: 10, high: 10 },
			hours: { low: 3, high: 3 },
			doses: { low: 4, high: 4 },
			gapDays: { low: 3, high: 3 }
		});
	});

	it('low salinity against Neobenedenia: 15 g/L 5 d eggs, 2 d worms; 18 g/L 7 d eggs (Ellis & Watanabe 1993)', () => {
		const eggs = methods['low-salinity'].uses.filter((row) => /eggs/.test(row.of));
		expect(eggs.map((row) => [row.level?.low, row.days?.low])).toEqual([
			[15, 5],
			[18, 7]
		]);
		expect(use(methods['low-salinity'].uses, /adults/)).toMatchObject({
			level: { low: 15 },
			days: { low: 2 }
		});
	});

	it('fresh-water dip of 2 min cured tilapia (J. Fish Dis. 1988)', () => {
		expect(use(medicines['fresh-water'].uses, /tilapia/).minutes).toEqual({ low: 2, high: 2 });
	});

	it('transfer: 4 moves 3 days apart (Colorni 1985); 2 to 3 moves every 2 to 3 days (Aquaculture 2018)', () => {
		const row = methods.transfer;
		expect([row.moves?.value, row.hoursApart?.value]).toEqual([4, 72]);
		expect(use(row.uses, /22 to 32/)).toMatchObject({
			doses: { low: 2, high: 3 },
			gapDays: { low: 2, high: 3 }
		});
	});
});

describe('life cycles', () => {
	it('Cryptocaryon: trophont 3 to 7 d, tomont 3 to 28 d, tomite 24 to 48 h (Colorni 1985)', () => {
		expect(stage('cryptocaryon', 'on the fish (trophont)').days).toEqual({ low: 3, high: 7 });
		expect(stage('cryptocaryon', 'cyst to release (tomont)').days).toEqual({ low: 3, high: 28 });
		expect(stage('cryptocaryon', 'free swimmer (tomite)').days).toEqual({ low: 24 / 24, high: 48 / 24 });
	});

	it.each([
		['half open', 30, 5],
		['all open', 30, 7],
		['60 % open', 25, 8],
		['70 % open', 25, 9],
		['10 % open', 20, 9],
		['40 % open', 20, 10]
	])('Cryptocaryon cysts %s at %i °C on day %i (Cheung et al. 1979)', (name, temperatureC, day) => {
		expect(stage('cryptocaryon', `cyst: ${name}`, temperatureC).days).toEqual({ low: day, high: day });
	});

	it('Amyloodinium: cycle 7 to 20 d, up to 256 dinospores (Virginia Coop. Ext. 600-200)', () => {
		expect(stage('amyloodinium', 'whole cycle').days).toEqual({ low: 7, high: 20 });
		expect(parasites.amyloodinium.notes.filter((note) => /\b256\b/.test(note.value))).toHaveLength(1);
	});

	it('Neobenedenia girellae at 25 °C: hatch 5 to 6, mature 10 to 11, egg to maturity 15 to 17 d (1995 abstract)', () => {
		expect(stage('neobenedenia', 'egg to hatching', 25).days).toEqual({ low: 5, high: 6 });
		expect(stage('neobenedenia', 'hatching to laying', 25).days).toEqual({ low: 10, high: 11 });
		expect(stage('neobenedenia', 'egg to laying', 25).days).toEqual({ low: 15, high: 17 });
	});

	it('Neobenedenia cycle: 10 to 13 d at 26 to 32 °C, 15 to 16 d at 22 to 24 °C (Brazenor & Hutson 2015)', () => {
		expect(stage('neobenedenia', 'whole cycle', { low: 26, high: 32 }).days).toEqual({ low: 10, high: 13 });
		expect(stage('neobenedenia', 'whole cycle', { low: 22, high: 24 }).days).toEqual({ low: 15, high: 16 });
	});

	it('Benedenia seriolae: first hatch day 5 at 28 °C, day 16 at 14 °C (Ernst et al. 2005)', () => {
		expect(stage('benedenia', 'egg to first hatching', 28).days.low).toBe(5);
		expect(stage('benedenia', 'egg to first hatching', 14).days.low).toBe(16);
	});
});

it('95 % of 42 institutions hold 30 days or more (Hadfield & Clayton 2011)', () => {
	expect(stay.survey.value).toEqual({ institutions: 42, percent: 95, days: 30 });
	expect(stay.totalDays.value).toBe(30);
});
