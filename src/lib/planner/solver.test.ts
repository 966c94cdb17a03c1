/** The march against a general solver of differential equations (odex), on the events the march itself lists. */
import { expect, it } from 'vitest';
import { integrate } from '../../../tests/integrate.ts';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { plan } from './index.ts';

const NO3_PER_N = 4.4266;
const MADE_MG_PER_DAY = 1.6 * 0.09 * 92;
const CLEARS_L_PER_DAY = 40;
const EVAPORATES_L_PER_DAY = 1.2;
const NET_L = 112;
const HALF_LIFE_DAYS = 3;

it('gives the levels that odex finds from one service to the next, within 1e-8', () => {
	const { levels, tasks } = plan(
		runOf(
			exampleWith({
				tank: { ...exampleDocument.tank, evaporates: `${EVAPORATES_L_PER_DAY} L/d` },
				medicines: [
					exampleDocument.medicines[0],
					{ ...exampleDocument.medicines[1], halfLife: `${HALF_LIFE_DAYS} d` }
				]
			})
		),
		exampleNow
	);
	const loss = Math.LN2 / HALF_LIFE_DAYS;
	let compared = 0;
	levels.forEach((after, i) => {
		const next = levels[i + 1];
		if (after.when !== 'after' || next?.when !== 'before') return;
		const days = (Date.parse(next.at) - Date.parse(after.at)) / 86_400_000;
		const v0 = after.volumeL;
		const flow = (t: number, [tan = 0, , pz = 0]: number[]) => {
			const cleared = (CLEARS_L_PER_DAY * tan) / (v0 - EVAPORATES_L_PER_DAY * t);
			return [MADE_MG_PER_DAY - cleared, NO3_PER_N * cleared, -loss * pz];
		};
		const start = [after.tanMgNPerL * v0, after.nitrateMgPerL * v0, (after.medicinesMgPerL.pz ?? 0) * v0];
		const [tan = 0, nitrate = 0, pz = 0] = integrate(flow, start, days, 1e-11);
		const v1 = v0 - EVAPORATES_L_PER_DAY * days;
		expect(Math.abs(next.volumeL - v1)).toBeLessThan(1e-9);
		expect(Math.abs(next.tanMgNPerL - tan / v1)).toBeLessThan(1e-8);
		expect(Math.abs(next.nitrateMgPerL - nitrate / v1)).toBeLessThan(1e-8);
		expect(Math.abs((next.medicinesMgPerL.pz ?? 0) - pz / v1)).toBeLessThan(1e-8);
		expect(
			Math.abs((next.medicinesMgPerL.cu ?? 0) - ((after.medicinesMgPerL.cu ?? 0) * v0) / v1)
		).toBeLessThan(1e-12);
		compared++;
	});
	expect(compared).toBe(51);
	expect(
		tasks.filter(({ kind }) => kind === 'topoff').every(({ amount }) => (amount?.value ?? 0) <= NET_L)
	).toBe(true);
});
