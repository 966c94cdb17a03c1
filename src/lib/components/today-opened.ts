/** The one sheet that is open on the page of the day, and on what: a job, a look at the fish, the emergency cards. */
export type Opened =
	| { of: 'job'; run: string; key: string }
	| { of: 'look'; run: string; task: string | null }
	/** what the signs on record speak for */
	| { of: 'suspects'; run: string; signs: readonly string[]; lot: string }
	/** an empty run: the tank is not chosen yet; an empty id: no card is open */
	| { of: 'card'; run: string; id: string };
