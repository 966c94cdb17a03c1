import { z } from 'zod';
import { logKinds } from '../run/index.ts';

/** An id that a client makes: of a run, a save, a log entry. */
export const idSchema = z
	.string()
	.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/, 'expected 1 to 64 letters, digits, - _ or .');

/** An instant with `Z` or an offset. */
const instant = z.iso.datetime({ offset: true, error: 'expected an instant with its offset' });

/** One log entry; what each kind says is read when the run is planned. */
export const entrySchema = z
	.looseObject({ id: idSchema, at: instant, kind: z.enum(logKinds) })
	.refine((value) => JSON.stringify(value).length <= 16_384, 'expected at most 16 kB');

/** Log entries as a client sends them. */
export const entriesSchema = z.array(entrySchema).min(1).max(2000);
