/** The first and the last day of each row of the sheet. */
export interface Rows {
	settle: readonly [number, number];
	copper: readonly [number, number];
	flukes: readonly [number, number];
	wash: readonly [number, number];
	watch: readonly [number, number];
	release: readonly [number, number];
}

/** Fluke doses on the fourth day of copper and a week later; after the last day of copper so many of washing out, and fourteen of watching. */
export const rowsOf = (copperTo: number, washDays = 5): Rows => {
	const watch = copperTo + washDays + 1;
	return {
		settle: [0, 2],
		copper: [3, copperTo],
		flukes: [6, 13],
		wash: [copperTo + 1, watch - 1],
		watch: [watch, watch + 13],
		release: [watch + 14, watch + 14]
	};
};

export const within = (day: number, [from, to]: readonly [number, number]): boolean =>
	day >= from && day <= to;

/** Copper thins by a quarter every third day of its row, the first time three days after it begins. */
export const isChangeDay = (day: number, { copper }: Rows): boolean =>
	day > copper[0] && day <= copper[1] && (day - copper[0]) % 3 === 0;

/** What is measured on a day of the watch: ammonia every second day of fourteen, nitrate every seventh. */
export const watchTests = (day: number, { watch }: Rows): string[] => {
	const n = day - watch[0] + 1;
	return [...(n % 2 === 1 && n < 14 ? ['NH₃'] : []), ...(n % 7 === 1 ? ['NO₃'] : [])];
};
