import {
	currentStore,
	endpoint,
	idSchema,
	keepPhoto,
	mostPhotoBytes,
	noRun,
	readBytes,
	readPhoto,
	refusal
} from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the picture. It never changes under its id, and nothing in it is ever run. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const photo = await readPhoto(currentStore(), params.id);
	if (!photo) return refusal(404, 'no-photo', `there is no picture ${params.id}`);
	return new Response(photo.bytes, {
		headers: {
			'content-type': photo.type,
			'content-disposition': 'inline',
			'content-security-policy': "default-src 'none'; sandbox"
		}
	});
});

/** `PUT ?run=RUN` with the bytes of a picture: keeps it once under the client's id. */
export const PUT = endpoint(async ({ params, request, url, locals }: RequestEvent) => {
	const run = url.searchParams.get('run') ?? '';
	if (!idSchema.safeParse(params.id).success)
		return refusal(422, 'not-understood', 'id: expected 1 to 64 letters, digits, - _ or .');
	const read = await readBytes(request, mostPhotoBytes);
	if (!read.ok) return read.response;
	const kept = await keepPhoto(currentStore(), { id: params.id, run, bytes: read.value, who: locals.who });
	if (!kept) return noRun(run);
	if (!kept.ok) return refusal(422, 'not-understood', kept.sentence);
	return Response.json({ photo: params.id }, { status: kept.made ? 201 : 200 });
});
