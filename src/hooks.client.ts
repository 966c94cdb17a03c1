import type { ClientInit } from '@sveltejs/kit';

/** Browsers without Temporal of their own get it before the first page is drawn; all others load nothing. */
export const init: ClientInit = async () => {
	if (!('Temporal' in globalThis)) await import('temporal-polyfill/global');
};
