import { currentStore, dayRound, endpoint } from '$lib/server';

/** `GET`: the jobs of the day over all runs, planned up to this minute. */
export const GET = endpoint(async () => Response.json({ round: await dayRound(currentStore()) }));
