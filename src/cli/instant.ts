import { Temporal } from 'temporal-polyfill';
import { refuse } from './answer.ts';

/** `--now`, as `YYYY-MM-DDTHH:MM:SSZ`; the clock's where it is not said. */
export function readNow(text: string | undefined): string {
	if (text === undefined) return utcSeconds(new Date().toISOString());
	const expected = 'an instant such as 2026-11-27T09:00:00Z or 2026-11-27T03:00:00-06:00';
	if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$/.test(text)) {
		refuse({ place: '--now', saw: text, expected });
	}
	try {
		return utcSeconds(Temporal.Instant.from(text).toString());
	} catch {
		refuse({ place: '--now', saw: text, expected });
	}
}

const utcSeconds = (iso: string) => `${iso.slice(0, 19)}Z`;
