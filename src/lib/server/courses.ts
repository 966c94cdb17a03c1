import { z } from 'zod';
import { idSchema } from './entries.ts';
import { patiently } from './fault.ts';
import type { Store } from './store.ts';

const most = 32_768;

/** Phases a keeper kept under a name, as a client sends them. What their cells say is read when they are planned. */
export const courseSchema = z
	.strictObject({
		id: idSchema,
		name: z.string().trim().min(1).max(80),
		phases: z
			.array(z.looseObject({ id: z.string().min(1).max(64) }))
			.min(1)
			.max(100)
	})
	.refine((value) => JSON.stringify(value).length <= most, 'expected at most 32 kB');

export type StoredCourse = z.infer<typeof courseSchema>;

/** Every keeper's courses, by name: those of one device are those of all. */
export async function listCourses(store: Store): Promise<StoredCourse[]> {
	const rows = await patiently(() =>
		store.db.selectFrom('course').select(['id', 'name', 'phases']).orderBy('name').orderBy('id').execute()
	);
	return rows.map((row) => ({ ...row, phases: JSON.parse(row.phases) as StoredCourse['phases'] }));
}

/** Keeps a course; one of the same id is there already and stays as it is, so a resend does no harm. */
export async function keepCourse(store: Store, course: StoredCourse, who: string): Promise<void> {
	const row = { ...course, phases: JSON.stringify(course.phases), created: store.now(), who };
	await patiently(() =>
		store.db
			.insertInto('course')
			.values(row)
			.onConflict((conflict) => conflict.column('id').doNothing())
			.execute()
	);
}

/** Drops a course; runs that were made with it keep their rows. False when there is none of that id. */
export async function dropCourse(store: Store, id: string): Promise<boolean> {
	const done = await patiently(() => store.db.deleteFrom('course').where('id', '=', id).executeTakeFirst());
	return Number(done.numDeletedRows) === 1;
}
