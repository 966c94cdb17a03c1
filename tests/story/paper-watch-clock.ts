import { dated } from './dates.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

/** Clean days and the whole stay that a release asks for (Hadfield & Clayton 2011 for the 30; judgment for the 14). */
export const watchClock = (clean: number, treated: number, days: number, earliest: number): Part => ({
	where: '[aria-label="Watch clock"]',
	says: [
		says`${clean} of 14`,
		says`counted from the treatment of ${dated(treated)}`,
		says`${days} of 30`,
		says`${dated(earliest)}`
	]
});
