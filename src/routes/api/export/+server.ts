import { currentStore, endpoint, exportAll } from '$lib/server';

/** `GET`: everything in the store as one JSON file. */
export const GET = endpoint(async () => {
	const everything = await exportAll(currentStore());
	return new Response(`${JSON.stringify(everything)}\n`, {
		headers: {
			'content-type': 'application/json; charset=utf-8',
			'content-disposition': 'attachment; filename="lazaret-all.json"'
		}
	});
});
