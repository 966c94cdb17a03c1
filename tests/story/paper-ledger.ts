import { dated, shortDay } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import { between, figure, says, type Hole, type Said } from './says.ts';
import type { Part } from './sweep.ts';

type Thing = 'Copper' | 'Praziquantel' | 'Ammonia' | 'Nitrate';
const things: readonly Thing[] = ['Copper', 'Praziquantel', 'Ammonia', 'Nitrate'];

/** One day of the ledger: what was forecast before its service, what was read, what was given, changed and noted. */
interface Row {
	away: boolean;
	forecast: Record<Thing, Hole>;
	readings: [Thing, number][];
	deeds: string[];
}

/** A level as the ledger writes it, three digits that count; known to so many mg/L. */
const level = (value: number, off = 0): Hole => ({
	text: String(Number(value.toPrecision(3))),
	pattern: '[\\d.]+',
	fits: (seen) => {
		const unit = value > 0 ? 10 ** (Math.floor(Math.log10(value)) - 2) : 0;
		return Math.abs(Number(seen) - value) <= off + unit / 2 + 1e-9;
	}
});

/** The ledger the keeper could have written herself: rows are days. */
export class PaperLedger {
	readonly #rows: Row[] = [];

	/**
	 * A day begins. What lies behind is forecast as if nothing was lost and as the mass of the fish says, from the last
	 * reading on: so paper knows copper to the last digit of the kit, and ammonia to that of each day.
	 */
	begin(day: number, tank: HandTank, away = false): void {
		const [, most] = tank.tanBand();
		this.#rows[day] = {
			away,
			forecast: {
				Copper: level(tank.copperMgPerL(), tank.copperMgPerL() > 0 ? 0.0005 : 0),
				Praziquantel: level(tank.praziquantelMgPerL()),
				Ammonia: level(tank.tanMgPerL(), most - tank.tanMgPerL()),
				Nitrate: level(0)
			},
			readings: [],
			deeds: []
		};
	}

	read(day: number, thing: Thing, typed: string): void {
		this.#rows[day]?.readings.push([thing, Number(typed)]);
	}

	note(day: number, deed: string): void {
		this.#rows[day]?.deeds.push(deed);
	}

	/** Every row that lies behind, today's included. */
	parts = (): Part[] =>
		this.#rows.map((row, day) => ({
			where: `[aria-label="Ledger"] tbody tr:nth-child(${day + 1})`,
			says: [
				row.away ? says`${shortDay(day)} away` : says`${shortDay(day)}`,
				...things.map((thing) => says`${row.forecast[thing]}`),
				...row.readings.map(([, value]) => says`${figure(value, 3)}`),
				...things.map((thing) => says`${thing} read on ${dated(day)} 08:00`),
				...row.deeds.map((deed) => says`${deed}`)
			]
		}));

	/** How far readings were from the forecast, all together: one was 0.06 mg/L lower, the others off by the kit's last digit. */
	differences(): Part[] {
		const count = (thing: Thing) =>
			this.#rows.flatMap(({ readings }) => readings.filter(([one]) => one === thing)).length;
		const copper = between(0.06 / count('Copper') - 0.0005, 0.06 / count('Copper') + 0.0005, 6);
		const tan = between(0, 0.001, 6);
		return [
			{
				where: 'figure',
				says: [
					says`Copper: ${count('Copper')} readings, wrong by ${copper} mg/L in the mean; ${copper} mg/L too high on average`,
					says`+0.06 mg/L`,
					says`-0.06 mg/L`,
					says`Ammonia: ${count('Ammonia')} readings, wrong by ${tan} mg/L in the mean; ${tan} mg/L too ${highOrLow} on average`,
					says`+${between(0.0005, 0.002, 5)} mg/L`,
					says`-${between(0.0005, 0.002, 5)} mg/L`
				]
			}
		];
	}

	/**
	 * What the readings teach: 32 g at 100 mg N for each kg and day, 50 to 200 (judgment, no source); of copper 0 to 10 %
	 * a day may be lost (judgment, no source).
	 */
	learned(): Said[] {
		const fish = between(3.2 * 0.97, 3.2 * 1.03, 2);
		const [few, many] = [between(3.2 * 0.85, 3.2, 2), between(3.2, 3.2 * 1.15, 2)];
		const lost = between(0, 10, 3);
		const tan = this.#rows.flatMap(({ readings }) => readings.filter(([one]) => one === 'Ammonia')).length;
		const copper = this.#rows.flatMap(({ readings }) => readings.filter(([one]) => one === 'Copper')).length;
		const bias = between(0.0015, 0.0025, 3);
		return [
			says`3.2 mg N/d (1.6 to 6.4 mg N/d) → ${fish} mg N/d (${few} to ${many} mg N/d)`,
			says`${tan} readings of ammonia, ${between(0, 0.001, 3)} mg/L off the forecast (bias ${sign}${between(0, 0.001, 3)}); feed and mass give 3.2 mg N a day, the readings ${fish}; assumed: a kit that is right within 10 % and half a step of 0.001 mg/L N, feed as logged, pH and new water as stated.`,
			says`0 %/d (0 to 10 %/d) → ${lost} %/d (${lost} to ${lost} %/d)`,
			says`${copper} readings of ionic copper, ${bias} mg/L off the forecast (bias −${bias}); 0 to 10 % a day may be lost, the readings say ${lost} %; assumed: a kit that is right within 10 % and half a step of 0.02 mg/L, doses, changes and volume as logged; doses still leave room for the least loss.`
		];
	}
}

const sign: Hole = { text: '±', pattern: '[+−]?', fits: () => true };
const highOrLow: Hole = { text: 'high or low', pattern: 'high|low', fits: () => true };
