import type { OutboxDesk } from './outbox.svelte';
import Ways from './TodayWays.svelte';
import { WayDesk } from './way-desk.svelte';

/** What shows the ways to go on, fetched once a job of the page has no answer. */
export const openWays = (outbox: OutboxDesk) => ({ Ways, desk: new WayDesk(outbox) });

export type OpenedWays = ReturnType<typeof openWays>;
