import { currentStore, dropCourse, endpoint, refusal } from '$lib/server';
import type { RequestEvent } from './$types';

/** `DELETE`: drops a saved course. */
export const DELETE = endpoint(async ({ params }: RequestEvent) =>
	(await dropCourse(currentStore(), params.id))
		? Response.json({ dropped: params.id })
		: refusal(404, 'no-course', `there is no course ${params.id}`)
);
