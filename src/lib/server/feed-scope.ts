import { z } from 'zod';
import { kindNames, taskKinds } from '../calendar/index.ts';
import type { FeedScope } from './feeds.ts';

const kind = z.enum(taskKinds);

/** What of the plans a calendar shows and how; as it comes from a page of the app. */
export const scopeSchema = z.strictObject({
	run: z.string().min(1).max(200).optional(),
	tank: z.string().min(1).max(200).optional(),
	kinds: z.array(kind).min(1).max(taskKinds.length).optional(),
	per: z.enum(['task', 'service']).optional(),
	allDay: z.boolean().optional(),
	/** at most a week ahead */
	alarms: z.partialRecord(kind, z.int().min(0).max(10_080)).optional()
});

/** What a new feed is asked to be. */
export const newFeedSchema = z.strictObject({
	name: z.string().trim().min(1).max(100),
	scope: scopeSchema
});

/** What a calendar shows, in a line. */
export function scopeWords(
	{ run, tank, kinds, per, allDay }: FeedScope,
	runs: readonly { id: string; name: string }[]
): string {
	const named = (list: readonly (typeof taskKinds)[number][]) =>
		list.map((kind) => kindNames[kind].toLowerCase()).join(', ');
	const missing = kinds ? taskKinds.filter((kind) => !kinds.includes(kind)) : [];
	const few = missing.length < 4 ? `without ${named(missing)}` : named(kinds ?? []);
	return [
		run ? (runs.find(({ id }) => id === run)?.name ?? 'a run that is gone') : 'every run',
		...(tank ? [tank] : []),
		missing.length === 0 ? 'all kinds' : few,
		...(per === 'service' ? ['per service'] : []),
		...(allDay ? ['whole days'] : [])
	].join(' · ');
}
