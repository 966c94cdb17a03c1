import { dated } from './dates.ts';
import type { Outlook } from './paper-outlook.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

/**
 * Fourteen clean days after the last treatment, and thirty in all from the last fish on (Hadfield & Clayton 2011 for the
 * 30; judgment for the 14). A day counts as clean once it is over; a hold treats on each of its days.
 */
export function watchClock({ today, rows, fish }: Outlook): Part {
	const treated = Math.min(today, rows.copper[1]);
	const since = fish.count > 4 ? 9 : 0;
	return {
		where: '[aria-label="Watch clock"]',
		says: [
			says`${Math.max(0, today - treated - 1)} of 14`,
			...(today < rows.copper[0] ? [] : [says`counted from the treatment of ${dated(treated)}`]),
			says`${today - since} of 30`,
			says`${dated(Math.max(since + 30, rows.copper[1] + 14 + 1))}`
		]
	};
}
