import { courseSchema, currentStore, endpoint, keepCourse, listCourses, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the courses keepers saved. */
export const GET = endpoint(async () => Response.json({ courses: await listCourses(currentStore()) }));

/** `POST { id, name, phases }`: keeps one, with an id of the client's. */
export const POST = endpoint(async ({ request, locals }: RequestEvent) => {
	const read = await readBody(request, courseSchema);
	if (!read.ok) return read.response;
	await keepCourse(currentStore(), read.value, locals.who);
	return Response.json({ id: read.value.id }, { status: 201 });
});
