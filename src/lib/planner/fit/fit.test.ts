import { describe, expect, it } from 'vitest';
import { runOf } from '../example.ts';
import { plan, type Plan } from '../index.ts';
import { planUntaught } from '../planning.ts';
import { noiseSd } from './noise.ts';
import { drawTank, live, PROTEIN, type SyntheticDay, type SyntheticTank } from './synthetic-tank.ts';

/**
 * The first of 200 seeds in a row; each draws one tank of 60 to 300 L, its true rates (production 55 to 144 mg N per
 * g of protein, clearance none or 0.5 to 3 tank volumes a day, loss anywhere in the shelf row's range), a kit's steps, 10
 * to 20 days of log, and the errors of kit, fish and keeper.
 */
const FIRST_SEED = 20_261_201;
const TANKS = 200;
const AHEAD = 3;
/** Nine tenths of a normal distribution. */
const NINE_TENTHS = 1.645;

const day = (n: number) => new Date(Date.UTC(2026, 11, 1 + n)).toISOString().slice(0, 10);

function documentOf(tank: SyntheticTank, days: readonly SyntheticDay[]) {
	const log = days.slice(0, tank.days).flatMap(({ readings, changed, dosedMg }, n) => {
		const entry = (minute: string, body: object) => ({
			id: `${n}-${minute}`,
			at: `${day(n)}T08:${minute}:00Z`,
			...body
		});
		const read = (what: string, level: number) => ({ kind: 'reading', what, value: `${level} mg/L` });
		return [
			entry('00', read('NH3', readings.tan)),
			entry('01', read(tank.active === 'copper-ionic' ? 'Cu' : 'm', readings.medicine)),
			...(changed > 0 ? [entry('02', { kind: 'change', fraction: changed })] : []),
			...(dosedMg > 0 ? [entry('03', { kind: 'dose', medicine: 'm', amount: `${dosedMg} mg` })] : [])
		];
	});
	return {
		format: 'lazaret-plan/1',
		name: `tank ${tank.seed}`,
		timeZone: 'UTC',
		service: '08:00',
		tank: {
			net: `${tank.volumeL} L`,
			temperature: '26 C',
			salinity: '34 ppt',
			pH: 8.1,
			...(tank.statedClearsLPerDay > 0 ? { filterClears: `${tank.statedClearsLPerDay} L/d` } : {})
		},
		lots: [
			{ id: 'a', what: 'fish', group: 'wrasse', count: 3, feed: `${tank.feedGPerDay} g/d`, protein: PROTEIN }
		],
		medicines: [{ id: 'm', active: tank.active, strength: '1 g/g' }],
		phases: [{ id: 'watch', kind: 'observe', starts: `on ${day(0)}`, lasts: '40 d' }],
		log
	};
}

/** Nobody does anything from now on, and that is said of a change that an emergency asks for. */
function leftAlone(document: ReturnType<typeof documentOf>, now: string) {
	const asked = plan(runOf(document), now).tasks.filter(({ urgent, state }) => urgent && state === 'open');
	const missed = asked.map(({ id }) => ({ id: `left ${id}`, at: now, kind: 'missed', task: id }));
	return { ...document, log: [...document.log, ...missed] };
}

type What = 'tan' | 'medicine';

interface Outcome {
	tank: SyntheticTank;
	/** mean distance of forecast and truth over the next three days */
	taught: Record<What, number>;
	untaught: Record<What, number>;
	/** does the band hold what the kit shows on each of them? */
	inside: Record<What, boolean>[];
}

function outcome(seed: number): Outcome {
	const tank = drawTank(seed);
	const days = live(tank, tank.days + AHEAD);
	const now = `${day(tank.days - 1)}T09:00:00Z`;
	const run = runOf(leftAlone(documentOf(tank, days), now));
	const ahead = (of: Plan) =>
		days.slice(tank.days).map((truth, i) => {
			const sample = of.levels.find(({ date, when }) => when === 'before' && date === day(tank.days + i));
			if (!sample) throw new Error(`no forecast for day ${tank.days + i}`);
			const medicine = sample.medicinesMgPerL.m ?? 0;
			return { truth, band: sample.band, level: { tan: sample.tanMgNPerL, medicine } };
		});
	const off = (of: Plan, what: What) =>
		ahead(of).reduce((sum, { level, truth }) => sum + Math.abs(level[what] - truth.found[what]), 0) / AHEAD;
	const [taught, untaught] = [plan(run, now), planUntaught(run, now)];
	const offs = (of: Plan) => ({ tan: off(of, 'tan'), medicine: off(of, 'medicine') });
	return {
		tank,
		taught: offs(taught),
		untaught: offs(untaught),
		inside: ahead(taught).map(({ truth: { readings }, band, level }) => ({
			tan: holds(band?.tanMgNPerL, level.tan, readings.tan, tank.kit.ammoniaStep),
			medicine: holds(band?.medicinesMgPerL?.m, level.medicine, readings.medicine, tank.kit.medicineStep)
		}))
	};
}

/** The band of a level is one thing, what a kit then shows another: its own spread comes on top, in squares. */
function holds(
	band: { low: number; high: number } | undefined,
	level: number,
	read: number,
	step: number
): boolean {
	const { low, high } = band ?? { low: level, high: level };
	const kit = NINE_TENTHS * noiseSd(level, step);
	return read >= level - Math.hypot(level - low, kit) && read <= level + Math.hypot(high - level, kit);
}

const median = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

describe('on 200 synthetic tanks', () => {
	const outcomes = Array.from({ length: TANKS }, (_, i) => outcome(FIRST_SEED + i));
	const copper = outcomes.filter(({ tank }) => tank.active === 'copper-ionic');
	const groups: [string, What, Outcome[]][] = [
		['ammonia', 'tan', outcomes],
		['medicine', 'medicine', outcomes],
		['copper alone', 'medicine', copper]
	];

	it.each(groups)(
		'the forecast of %s is at least twice as close, and the band of all 200 holds nine tenths',
		(name, what, group) => {
			const taught = median(group.map((one) => one.taught[what]));
			const untaught = median(group.map((one) => one.untaught[what]));
			const ratio = median(group.map((one) => one.untaught[what] / one.taught[what]));
			const inside = group.flatMap((one) => one.inside.map((day) => day[what]));
			const held = inside.filter(Boolean).length / inside.length;
			console.log(
				`${name}, ${group.length} tanks: median error ${untaught.toFixed(4)} mg/L by published rates, ${taught.toFixed(4)} refitted (${(untaught / taught).toFixed(2)} times closer, per tank ${ratio.toFixed(2)}); ${(100 * held).toFixed(1)} % of ${inside.length} later readings in the band`
			);
			expect(untaught / taught).toBeGreaterThanOrEqual(2);
			expect(ratio).toBeGreaterThanOrEqual(2);
			if (group.length < TANKS) return;
			expect(held).toBeGreaterThanOrEqual(0.85);
			expect(held).toBeLessThanOrEqual(0.95);
		}
	);
});
