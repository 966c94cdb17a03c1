import { z } from 'zod';
import { taskKinds } from '../planner/index.ts';

const kind = z.enum(taskKinds);

/** What a new feed is asked to be; as it comes from a page of the app. */
export const newFeedSchema = z.strictObject({
	name: z.string().trim().min(1).max(100),
	scope: z.strictObject({
		run: z.string().min(1).max(200).optional(),
		tank: z.string().min(1).max(200).optional(),
		kinds: z.array(kind).min(1).max(taskKinds.length).optional(),
		per: z.enum(['task', 'service']).optional(),
		allDay: z.boolean().optional(),
		/** at most a week ahead */
		alarms: z.partialRecord(kind, z.int().min(0).max(10_080)).optional()
	})
});
