import { currentStore, endpoint, getRun, history, noRun, refusal } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET ?limit=200&before=VERSION`: the saves, the latest first. */
export const GET = endpoint(async ({ params, url }: RequestEvent) => {
	const number = (name: string, most: number, usual?: number) => {
		const text = url.searchParams.get(name);
		if (text === null) return usual;
		return /^\d{1,9}$/.test(text) && Number(text) >= 1 && Number(text) <= most ? Number(text) : null;
	};
	const limit = number('limit', 1000, 200);
	const before = number('before', 1e9);
	if (limit === null || before === null) {
		return refusal(400, 'not-understood', 'limit and before: expected whole numbers, limit at most 1000');
	}
	if (!(await getRun(currentStore(), params.id))) return noRun(params.id);
	return Response.json({ history: await history(currentStore(), params.id, limit, before) });
});
