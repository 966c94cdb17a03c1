/**
 * A tank figured by hand, day by day, as a keeper with paper would: masses in mg, whole days, no filter, nothing lost.
 * What the story's screens show is held against it, so nothing of the app is imported.
 */
export class HandTank {
	readonly litres: number;
	/** mg/mL, and the smallest step of the syringe in mL */
	readonly #bottle: { strength: number; step: number };
	/** mg N a day */
	tanMgPerDay: number;
	copperMg = 0;
	tanMg = 0;
	/** what a top-up leads to, mg/L */
	aim = 0;
	/** days since the copper was last read or given */
	#unreadDays = 0;
	/** the kit shows more than the paper thinks is there, mg/L */
	kitShows: number | null = null;
	/** share of the water a change takes */
	share = 0.25;

	constructor(litres: number, tanMgPerDay: number, bottle: { strength: number; step: number }) {
		this.litres = litres;
		this.tanMgPerDay = tanMgPerDay;
		this.#bottle = bottle;
	}

	/** Fish go on, a day at a time. */
	days(n: number): void {
		this.tanMg += n * this.tanMgPerDay;
		this.#unreadDays += n;
	}

	changeL = (): number => this.share * this.litres;

	/** Part of the water out, clean water in. */
	change(litres: number): void {
		const kept = 1 - litres / this.litres;
		this.copperMg *= kept;
		this.tanMg *= kept;
	}

	giveCopper(mL: number): void {
		this.copperMg += mL * this.#bottle.strength;
		this.#unreadDays = 0;
	}

	/** mL of the bottle that lift the copper to the aim, down to the next step of the syringe. */
	topUpMl(): number {
		const { strength, step } = this.#bottle;
		const mg = this.aim * this.litres - this.copperMg;
		return (Math.floor(mg / strength / step + 1e-9) * Math.round(step * 1000)) / 1000;
	}

	copperMgPerL = (): number => this.copperMg / this.litres;
	tanMgPerL = (): number => this.tanMg / this.litres;

	kitCopperMgPerL(): number {
		if (this.kitShows !== null) this.copperMg = this.kitShows * this.litres;
		this.#unreadDays = 0;
		return this.copperMgPerL();
	}

	/** What a forecast may say before the test: no loss at all, or the fastest that was ever read, 0.18 to 0.12 in a day. */
	copperBand = (): [least: number, most: number] => [
		this.copperMgPerL() * (0.12 / 0.18) ** this.#unreadDays,
		this.copperMgPerL()
	];

	/** NH3-N at 26 °C, 34 ppt and pH 8.1: pKa 10.0423 - 0.0315536 t + 0.003071 S (Bell et al. 2007). */
	toxicMgNPerL(): number {
		const pKa = 10.0423 - 0.0315536 * 26 + 0.003071 * 34;
		return this.tanMgPerL() / (1 + 10 ** (pKa - 8.1));
	}
}
