import type { Planned } from '../calendar/index.ts';
import {
	collectionOf,
	noteLook,
	readAccount,
	takeAccount,
	type Account,
	type Question
} from './caldav-accounts.ts';
import { DavTrouble } from './caldav-fetch.ts';
import { readItems } from './caldav-items.ts';
import { KeyTrouble } from './caldav-key.ts';
import { note, type Look } from './caldav-look.ts';
import { keepNotes } from './caldav-notes.ts';
import { pull } from './caldav-receive.ts';
import { errandOf, send, takeAway } from './caldav-send.ts';
import { plannedRuns } from './planned.ts';
import type { Store } from './store.ts';

/** How a look went. */
export interface LookReport {
	/** null: it went well */
	trouble: string | null;
	question: Question | null;
	sentences: string[];
}

/** The longest a look may take before another one may begin, minutes. */
const mostMinutes = 10;

/**
 * One look at a server: first what came from there, then what the plan wants there. Null when there is no such
 * account. `agreed` answers the question of an earlier look.
 */
export async function syncAccount(
	store: Store,
	id: string,
	agreed: Look['agreed'] = null
): Promise<LookReport | null> {
	const account = await readAccount(store, id);
	if (!account) return null;
	if (!(await takeAccount(store, id, mostMinutes)))
		return { trouble: 'A look is under way: wait for it.', question: account.question, sentences: [] };
	const notes: Look['notes'] = [];
	try {
		const question = await look(store, account, notes, agreed);
		await settle(store, account, { trouble: null, question });
		return { trouble: null, question, sentences: notes.map(({ sentence }) => sentence) };
	} catch (error) {
		if (!(error instanceof DavTrouble || error instanceof KeyTrouble)) throw error;
		notes.push({ at: store.now(), way: 'trouble', sentence: error.message });
		await settle(store, account, { trouble: error, question: account.question });
		const sentences = notes.map(({ sentence }) => sentence);
		return { trouble: error.message, question: account.question, sentences };
	} finally {
		await keepNotes(store, id, notes);
		await noteLook(store, id, { busy: null });
	}
}

async function look(
	store: Store,
	account: Account,
	notes: Look['notes'],
	agreed: Look['agreed']
): Promise<Question | null> {
	const now = `${store.now().slice(0, 19)}Z`;
	const collection = await collectionOf(store, account);
	const [items, planned] = [await readItems(store, account.id), await plansIn(store, account, now)];
	const look: Look = {
		store,
		account,
		collection,
		now,
		items,
		planned,
		notes,
		logged: false,
		wrote: false,
		agreed
	};
	const pulled = await pull(look);
	if (pulled.asks) {
		const { count, of } = pulled.asks;
		note(
			look,
			'asked',
			`${count} of ${of} tasks were deleted on the server: say whether to write them again.`
		);
		return { about: 'restore', ...pulled.asks };
	}
	const question = await bring(look);
	// a token from before the writes would never tell of a new object that is deleted again
	const after = look.wrote ? await pull({ ...look, account: { ...account, token: pulled.token } }) : pulled;
	await noteLook(store, account.id, { token: after.asks ? pulled.token : after.token });
	return question;
}

/** Ticks met while writing change the plan, which is then made and compared again. */
const mostRounds = 4;

async function bring(look: Look): Promise<Question | null> {
	for (let round = 0; round < mostRounds; round++) {
		if (look.logged) look.planned = await plansIn(look.store, look.account, look.now);
		look.logged = false;
		await send(look, errandOf(look));
		if (!look.logged) break;
	}
	const { leaving, live } = errandOf(look);
	if (leaving.length * 2 > live && look.agreed !== 'delete') {
		note(
			look,
			'asked',
			`${leaving.length} of ${live} tasks on the server are no longer planned: say whether to take them away.`
		);
		return { about: 'delete', count: leaving.length, of: live };
	}
	await takeAway(look, leaving);
	return null;
}

async function plansIn(store: Store, { scope }: Account, now: string): Promise<Map<string, Planned>> {
	const planned = (await plannedRuns(store, now)).filter(
		({ run }) =>
			(scope.run === undefined || run.id === scope.run) &&
			(scope.tank === undefined || run.tank.name === scope.tank)
	);
	return new Map(planned.map((one) => [one.run.id, one]));
}

/** The longest pause after failures, minutes. */
const longestPause = 6 * 60;

async function settle(
	store: Store,
	account: Account,
	{ trouble, question }: { trouble: Error | null; question: Question | null }
): Promise<void> {
	const failures = trouble ? account.failures + 1 : 0;
	// a wrong password asked again and again locks an account on many servers
	const hopeless = trouble instanceof KeyTrouble || (trouble as DavTrouble | null)?.kind === 'password';
	const pause = Math.max(account.every, Math.min(longestPause, account.every * 2 ** failures));
	const next = new Date(Date.parse(store.now()) + (trouble ? pause : account.every) * 60_000).toISOString();
	await noteLook(store, account.id, {
		looked: store.now(),
		trouble: trouble?.message ?? null,
		failures,
		next: hopeless ? null : next,
		question: question === null ? null : JSON.stringify(question)
	});
}
