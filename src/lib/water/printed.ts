import { expect } from 'vitest';
import type { Read } from '../units/index.ts';

/** What was read, for tests; throws where it could not be. */
export function valueOf<T>(result: Read<T>): T {
	if (!result.ok) throw new Error(`${result.problem.seen}: ${result.problem.expected}`);
	return result.value;
}

/** Holds a figure against what a source prints, in the figure's own unit. */
export const near = (found: number, printed: number, within: number) =>
	expect(Math.abs(found - printed)).toBeLessThanOrEqual(within);
