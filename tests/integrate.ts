import { createRequire } from 'node:module';

/** The part of odex used here. It ships its own sources, which do not pass this project's strict types, so it is required. */
interface Odex {
	Solver: new (size: number) => {
		absoluteTolerance: number;
		relativeTolerance: number;
		solve(f: Flow, from: number, y: number[], to: number): { y: number[] };
	};
}
const { Solver } = createRequire(import.meta.url)('odex') as Odex;

/** y' at a time. */
export type Flow = (t: number, y: number[]) => number[];

/** y after a time by a general solver of differential equations (Gragg, Bulirsch and Stoer), within `tolerance`. */
export function integrate(flow: Flow, start: number[], until: number, tolerance = 1e-12): number[] {
	const solver = new Solver(start.length);
	solver.absoluteTolerance = tolerance;
	solver.relativeTolerance = tolerance;
	return solver.solve(flow, 0, start, until).y;
}
