import { judge, readTyped } from '$lib/today';
import { sentenceIn } from '$lib/units';

/** What reads and judges a typed reading, and tells sentences in US units: fetched once the page stands. */
export const judging = { judge, readTyped, sentenceIn };
