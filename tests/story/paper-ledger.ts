import { dated, shortDay } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import type { Met } from './paper-lessons.ts';
import { figure, says, type Hole } from './says.ts';
import type { Part } from './sweep.ts';

type Thing = Met['thing'];
const things: readonly Thing[] = ['Copper', 'Praziquantel', 'Ammonia', 'Nitrate'];

/** One day of the ledger: what was forecast before its service, what was read, what was given, changed and noted. */
interface Row {
	away: boolean;
	forecast: Record<Thing, Hole>;
	readings: Met[];
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

	/** `expected` and the least of it: where it is another than what was read, but for the kit's last digit. */
	read(day: number, thing: Thing, typed: string, expected = Number(typed), least = expected): void {
		this.#rows[day]?.readings.push({ thing, value: Number(typed), expected, least });
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
				...row.readings.map(({ value }) => says`${figure(value, 3)}`),
				...things.map((thing) => says`${thing} read on ${dated(day)} 08:00`),
				...row.deeds.map((deed) => says`${deed}`)
			]
		}));

	/** Every reading so far, beside what was expected. */
	met = (): Met[] => this.#rows.flatMap(({ readings }) => readings);
}
