import { emptyHistory, type WorkingCopy } from '$lib/sheet';

type Kept = Pick<WorkingCopy, 'version' | 'ground' | 'waiting' | 'questions'>;

const prefix = (run: string) => `lazaret-unsent-${run}/`;
const tabKey = (run: string) => `lazaret-tab-${run}`;

/**
 * Keeps on this device what has not reached the store and what is asked, each page of a run under a name of its own,
 * and for this tab what can be taken back.
 */
export function keepUnsent(run: string, page: string, copy: WorkingCopy): void {
	const { version, ground, waiting, questions } = copy;
	try {
		const kept: Kept = { version, ground, waiting, questions };
		if (waiting.length + questions.length > 0) localStorage.setItem(prefix(run) + page, JSON.stringify(kept));
		else localStorage.removeItem(prefix(run) + page);
		sessionStorage.setItem(tabKey(run), JSON.stringify(copy));
	} catch {
		// a full or forbidden storage: the acts are still in memory and on their way
	}
}

/** What other pages of the run left behind, also those of before a reload, by name. */
export function unsentOf(run: string, page: string): [name: string, copy: WorkingCopy][] {
	try {
		return Object.keys(localStorage)
			.filter((key) => key.startsWith(prefix(run)) && key !== prefix(run) + page)
			.map((key) => {
				const kept = JSON.parse(localStorage.getItem(key) ?? '') as Kept;
				return [key.slice(prefix(run).length), { ...kept, document: kept.ground, history: emptyHistory }];
			});
	} catch {
		return [];
	}
}

/** Another page's remains were taken up. */
export function dropUnsent(run: string, page: string): void {
	try {
		localStorage.removeItem(prefix(run) + page);
	} catch {
		// taking them up twice does no harm: the store knows each act by its id
	}
}

/** The copy as it was in this tab before it was loaded again, for what could be taken back. */
export function copyBefore(run: string): WorkingCopy | null {
	try {
		return JSON.parse(sessionStorage.getItem(tabKey(run)) ?? 'null') as WorkingCopy | null;
	} catch {
		return null;
	}
}
