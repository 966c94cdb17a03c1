import { offerRepairs } from '$lib/planner';
import type { RepairWish } from './repair-shop';

// a worker has globals of its own: the page's Temporal is not here
const ready = 'Temporal' in globalThis ? Promise.resolve() : import('temporal-polyfill/global');

addEventListener('message', async ({ data }: MessageEvent<RepairWish>) => {
	await ready;
	postMessage(offerRepairs(data.document, data.now, data.today).findings);
});
