/**
 * The x in [low, high] where a rising function reaches a value, by bisection to the last bit or so.
 * The caller has checked that it lies inside.
 */
export function solveRising(f: (x: number) => number, value: number, low: number, high: number): number {
	let [below, above] = [low, high];
	for (let step = 0; step < 200; step++) {
		const middle = (below + above) / 2;
		if (middle <= below || middle >= above) break;
		if (f(middle) < value) below = middle;
		else above = middle;
	}
	return (below + above) / 2;
}
