import { PaperLoss } from './paper-loss.ts';

/**
 * A tank figured by hand, day by day, as a keeper with paper would: masses in mg, whole days, no filter, nothing lost.
 * What the story's screens show is held against it, so nothing of the app is imported.
 */
export class HandTank {
	readonly litres: number;
	/** what all readings, doses and changes say of the copper */
	readonly loss: PaperLoss;
	/** mg/mL, and the smallest step of the syringe in mL */
	readonly #bottle: { strength: number; step: number };
	/** mg N a day */
	tanMgPerDay: number;
	copperMg = 0;
	praziquantelMg = 0;
	tanMg = 0;
	/** what a top-up leads to, mg/L */
	aim = 0;
	/** the kit shows more than the paper thinks is there, mg/L */
	kitShows: number | null = null;
	/** share of the water a change takes */
	share = 0.25;
	/** the least of the copper that a day was ever read to leave: nothing is lost until a reading says so */
	keeps = 1;
	/** days since the copper was last read or given, and since ammonia was read */
	#unread = { copper: 0, tan: 0 };

	constructor(litres: number, tanMgPerDay: number, bottle: { strength: number; step: number }) {
		this.litres = litres;
		this.loss = new PaperLoss(litres);
		this.tanMgPerDay = tanMgPerDay;
		this.#bottle = bottle;
	}

	/** Fish go on, a day at a time. */
	days(n: number): void {
		this.tanMg += n * this.tanMgPerDay;
		this.#unread.copper += n;
		this.#unread.tan += n;
	}

	/** days since the copper was last known */
	copperUnreadDays = (): number => this.#unread.copper;

	changeL = (): number => this.share * this.litres;

	/** Part of the water out, clean water in. */
	change(litres: number): void {
		const kept = 1 - litres / this.litres;
		this.copperMg *= kept;
		this.praziquantelMg *= kept;
		this.tanMg *= kept;
	}

	giveCopper(mL: number): void {
		this.copperMg += mL * this.#bottle.strength;
		this.#unread.copper = 0;
	}

	/** The full 2.5 mg/L each time, whatever is left: praziquantel has a wide margin. */
	givePraziquantel(): void {
		this.praziquantelMg += 2.5 * this.litres;
	}

	/** mL of the bottle for a rise in mg/L, down to the next step of the syringe. */
	mLFor(rise: number): number {
		const { strength, step } = this.#bottle;
		const steps = Math.floor((Math.max(0, rise) * this.litres) / strength / step + 1e-9);
		return (steps * Math.round(step * 1000)) / 1000;
	}

	/** mg/L that so many mL of the bottle lift. */
	riseOf = (mL: number): number => (mL * this.#bottle.strength) / this.litres;

	/** mL that lift the copper from a level to the aim, never past 0.20 even if all that was there is still there. */
	topUpMl(from = this.copperMgPerL(), most = from): number {
		return this.mLFor(Math.min(this.aim - from, 0.2 - most));
	}

	copperMgPerL = (): number => this.copperMg / this.litres;
	praziquantelMgPerL = (): number => this.praziquantelMg / this.litres;
	tanMgPerL = (): number => this.tanMg / this.litres;

	kitCopperMgPerL(): number {
		if (this.kitShows !== null) this.copperMg = this.kitShows * this.litres;
		this.#unread.copper = 0;
		return this.copperMgPerL();
	}

	kitTanMgPerL(): number {
		this.#unread.tan = 0;
		return this.tanMgPerL();
	}

	/** The last reading was off by half a thousandth at most, and so is what each day since is thought to add. */
	tanBand(): [least: number, most: number] {
		const off = 0.0005 * (1 + this.#unread.tan);
		return [Math.max(0, this.tanMgPerL() - off), this.tanMgPerL() + off];
	}
}

/** The toxic share of ammonia: pKa 10.0423 - 0.0315536 t + 0.003071 S (Bell et al. 2007). */
export const nh3Share = (celsius: number, ppt: number, pH: number): number =>
	1 / (1 + 10 ** (10.0423 - 0.0315536 * celsius + 0.003071 * ppt - pH));

/** The same in the tank, at 26 °C, 34 ppt and pH 8.1. */
export const toxicShare = nh3Share(26, 34, 8.1);

/** Grams of NH3 for a gram of N: 14.007 + 3 x 1.008 over 14.007 (standard atomic weights, IUPAC). */
export const nh3PerN = (14.007 + 3 * 1.008) / 14.007;
