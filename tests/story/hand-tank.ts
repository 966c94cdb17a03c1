/**
 * A tank figured by hand, day by day, as a keeper with paper would: masses in mg, whole days, no filter, nothing lost.
 * What the story's screens show is held against it, so nothing of the app is imported.
 */
export class HandTank {
	copperMg = 0;
	praziquantelMg = 0;
	tanMg = 0;

	readonly litres: number;
	/** mg N a day */
	tanMgPerDay: number;

	constructor(litres: number, tanMgPerDay: number) {
		this.litres = litres;
		this.tanMgPerDay = tanMgPerDay;
	}

	/** Fish go on, a day at a time. */
	days(n: number): void {
		this.tanMg += n * this.tanMgPerDay;
	}

	/** Part of the water out, clean water in. */
	change(litres: number): void {
		const kept = 1 - litres / this.litres;
		this.copperMg *= kept;
		this.praziquantelMg *= kept;
		this.tanMg *= kept;
	}

	copperMgPerL = (): number => this.copperMg / this.litres;
	tanMgPerL = (): number => this.tanMg / this.litres;

	/** mL of a bottle that lift the copper to `aim`, down to the next step of the syringe. */
	topUpMl(aimMgPerL: number, strengthMgPerMl: number, stepMl: number): number {
		const mg = aimMgPerL * this.litres - this.copperMg;
		return (Math.floor(mg / strengthMgPerMl / stepMl + 1e-9) * Math.round(stepMl * 1000)) / 1000;
	}
}
