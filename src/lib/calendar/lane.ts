/** Gives each span of days the lowest lane that is free on all its days, in order of beginning; both ends are inside. */
export function lanesOf(spans: readonly { from: number; to: number }[]): number[] {
	const order = spans
		.map((_, at) => at)
		.sort((a, b) => (spans[a]?.from ?? 0) - (spans[b]?.from ?? 0) || a - b);
	const lanes = spans.map(() => 0);
	const ends: number[] = [];
	for (const at of order) {
		const { from, to } = spans[at] ?? { from: 0, to: 0 };
		const free = ends.findIndex((end) => end < from);
		const lane = free < 0 ? ends.length : free;
		lanes[at] = lane;
		ends[lane] = to;
	}
	return lanes;
}
