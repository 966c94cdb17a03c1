import type { Temporal as Library } from 'temporal-polyfill';

const global = globalThis as unknown as { Temporal: typeof Library };

/**
 * Temporal as the browser has it. Each member is looked up when it is used: one that lacks it is given the library
 * by `src/hooks.client.ts`, after this module was read and before any page is drawn.
 */
export const Temporal = {
	get Instant() {
		return global.Temporal.Instant;
	},
	get PlainDateTime() {
		return global.Temporal.PlainDateTime;
	}
};
