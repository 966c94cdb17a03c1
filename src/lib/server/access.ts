import { countGuess, forgiveGuess } from './attempts.ts';
import { writeDeed } from './audit.ts';
import { isLoopback } from './place.ts';
import { Crowded, fitsHash, fitsNobody } from './passphrase.ts';
import { anyPeople, folded, listPeople, setPassphrase, type Role } from './people.ts';
import { patiently } from './fault.ts';
import { enteredBy, openSession } from './sessions.ts';
import type { Store } from './store.ts';

type Environment = Record<string, string | undefined>;

/** Who acts. Without any people on a machine that only itself can reach, everybody there is the keeper. */
export interface Actor {
	name: string;
	role: Role;
	/** null where nobody has to enter */
	session: string | null;
	person: string | null;
}

/** Who a request comes from: somebody, nobody who has entered, or a place that may not be open to all. */
export type Asker = { kind: 'actor'; actor: Actor } | { kind: 'nobody' } | { kind: 'unlocked' };

/** True when the environment lets more than this machine reach the app: then somebody has to have a passphrase. */
export const isWide = (env: Environment): boolean =>
	!isLoopback(env.HOST || '127.0.0.1') ||
	env.TRUST_PROXY === '1' ||
	(env.LAZARET_HOSTS ?? '').split(',').some((name) => name.trim() !== '' && !isLoopback(name.trim()));

const openKeeper: Actor = { name: 'keeper', role: 'keeper', session: null, person: null };

/** Finds out who asks. `passedOn` says that a proxy handed the request on. */
export async function askerOf(
	store: Store,
	env: Environment,
	token: string | undefined,
	passedOn: boolean
): Promise<Asker> {
	const entered = token === undefined ? null : await enteredBy(store, token);
	if (entered) {
		const { name, role, session, person } = entered;
		return { kind: 'actor', actor: { name, role, session, person } };
	}
	if (await anyPeople(store)) return { kind: 'nobody' };
	return isWide(env) || passedOn ? { kind: 'unlocked' } : { kind: 'actor', actor: openKeeper };
}

const how = 'npm run -s lazaret -- people add NAME keeper';

/** What keeps the app from starting: it would be reached from elsewhere and nobody has a passphrase. Null when nothing. */
export async function wideTrouble(store: Store, env: Environment): Promise<string | null> {
	if (!isWide(env)) return null;
	const people = await listPeople(store);
	if (people.some(({ role }) => role === 'keeper')) return null;
	const name = isLoopback(env.HOST || '127.0.0.1')
		? env.TRUST_PROXY === '1'
			? 'TRUST_PROXY'
			: 'LAZARET_HOSTS'
		: 'HOST';
	return `${name}: others could reach this app and nobody has a passphrase; "${how}" asks for one, then start again`;
}

/** The sentence for a place that others reach while nobody has a passphrase. */
export const unlockedSentence = `Others can reach this app and nobody has a passphrase yet. On the machine it runs on: ${how}`;

export type Entering =
	{ kind: 'in'; token: string; name: string } | { kind: 'wrong' } | { kind: 'wait'; seconds: number };

/** Somebody at the door, with the address and the device they come from. */
export interface Knock {
	name: string;
	passphrase: string;
	address: string;
	device: string;
}

/** Lets somebody in who knows the passphrase. Wrong ones are counted and slowed; the answer never says which part was wrong. */
export async function enter(store: Store, { name, passphrase, address, device }: Knock): Promise<Entering> {
	const { waitSeconds } = await countGuess(store, name, address);
	if (waitSeconds > 0) return { kind: 'wait', seconds: waitSeconds };
	try {
		const known = await patiently(() =>
			store.db
				.selectFrom('person')
				.select(['id', 'name', 'pass'])
				.where('folded', '=', folded(name))
				.executeTakeFirst()
		);
		const fits = known ? await fitsHash(passphrase, known.pass) : await fitsNobody(passphrase);
		// a name that is nobody's may be a passphrase in the wrong field: it is not written down
		const who = known?.name ?? 'somebody unknown';
		if (!known || !fits) {
			await writeDeed(store, { who, what: 'gave a wrong passphrase', about: '', address });
			return { kind: 'wrong' };
		}
		await forgiveGuess(store, name, address);
		const token = await openSession(store, known.id, device);
		await writeDeed(store, { who, what: 'entered', about: '', address });
		return { kind: 'in', token, name: known.name };
	} catch (error) {
		if (error instanceof Crowded) return { kind: 'wait', seconds: 2 };
		throw error;
	}
}

/** Changes one's own passphrase, for which the old one is asked again; every other device is logged out. */
export async function changeOwn(
	store: Store,
	actor: Actor,
	{ old, fresh, address }: { old: string; fresh: string; address: string }
): Promise<{ ok: true } | { ok: false; sentence: string }> {
	if (actor.person === null) return { ok: false, sentence: 'Nobody has to enter here.' };
	const { waitSeconds } = await countGuess(store, actor.name, address);
	if (waitSeconds > 0)
		return { ok: false, sentence: `Too many wrong tries. Wait ${waitSeconds} seconds, then try again.` };
	const { id, pass } = await patiently(() =>
		store.db
			.selectFrom('person')
			.select(['id', 'pass'])
			.where('id', '=', actor.person)
			.executeTakeFirstOrThrow()
	);
	if (!(await fitsHash(old, pass))) return { ok: false, sentence: 'The old passphrase is wrong.' };
	await forgiveGuess(store, actor.name, address);
	const done = await setPassphrase(store, id, fresh, actor.session);
	return done.ok ? { ok: true } : done;
}
