import { emergencies } from '$lib/formulary';
import { appetites, signs } from '$lib/run';
import { currentStore, dayRound } from '$lib/server';
import type { PageServerLoad } from './$types';

/** The jobs of the day over all runs, the cards for when things go wrong, and the words of a look. */
export const load: PageServerLoad = async () => ({
	round: await dayRound(currentStore()),
	emergencies,
	signs,
	appetites
});
