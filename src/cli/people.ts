import {
	addPerson,
	endSessionsOf,
	listPeople,
	removePerson,
	roleOf,
	roles,
	setPassphrase,
	setRole,
	type Done,
	type Person,
	type Role,
	type Store
} from '../lib/server/index.ts';
import { refuse, Refusal, type Answer } from './answer.ts';
import { help } from './help.ts';
import { readArguments } from './options.ts';
import { readSecret } from './secret.ts';
import { withStore } from './store.ts';

type Act = (store: Store, words: readonly string[], file: string | undefined) => Promise<string>;

const acts: Record<string, { words: number; usage: string; act: Act }> = {
	add: {
		words: 2,
		usage: 'people add NAME ROLE',
		act: async (store, [name = '', word = ''], file) => {
			const role = readRole(word);
			const passphrase = await readSecret(file, `Passphrase for ${name}`);
			return said(await addPerson(store, { name, role, passphrase }), `may enter as ${role}`);
		}
	},
	role: {
		words: 2,
		usage: 'people role NAME ROLE',
		act: async (store, [name = '', word = '']) => {
			const role = readRole(word);
			return said(await setRole(store, (await personOf(store, name)).id, role), `is now ${role}`);
		}
	},
	passphrase: {
		words: 1,
		usage: 'people passphrase NAME',
		act: async (store, [name = ''], file) => {
			const { id } = await personOf(store, name);
			const passphrase = await readSecret(file, `New passphrase for ${name}`);
			return said(
				await setPassphrase(store, id, passphrase),
				'has a new passphrase and is logged out everywhere'
			);
		}
	},
	out: {
		words: 1,
		usage: 'people out NAME',
		act: async (store, [name = '']) => {
			const person = await personOf(store, name);
			await endSessionsOf(store, person.id);
			return `${person.name}: is logged out everywhere`;
		}
	},
	remove: {
		words: 1,
		usage: 'people remove NAME',
		act: async (store, [name = '']) =>
			said(await removePerson(store, (await personOf(store, name)).id), 'may enter no more')
	}
};

const usages = ['people', ...Object.values(acts).map(({ usage }) => usage)].join(', ');

/** `lazaret people ...`: who may enter; without a word more, the list of them. */
export async function people(args: readonly string[]): Promise<Answer> {
	const { words, options, help: asked } = readArguments(args, { 'passphrase-file': 'text' });
	if (asked) return { exit: 0, result: help() };
	const [verb, ...rest] = words;
	if (verb === undefined)
		return withStore(async (store) => ({ exit: 0, result: listed(await listPeople(store)) }));
	const known = Object.hasOwn(acts, verb) ? acts[verb] : undefined;
	if (!known) return refuse({ saw: `people ${verb}`, expected: `one of: ${usages}` });
	if (rest.length !== known.words) refuse({ saw: `people ${words.join(' ')}`, expected: known.usage });
	return withStore(async (store) => ({
		exit: 0,
		say: await known.act(store, rest, options['passphrase-file'])
	}));
}

const listed = (all: readonly Person[]) =>
	all.map(({ name, role }) => `${role}\t${name}`).join('\n') ||
	'nobody is named: whoever sits at this machine is the keeper';

const readRole = (word: string): Role => roleOf(word) ?? refuse({ saw: word, expected: roles.join(', ') });

const same = (a: string, b: string) => a.localeCompare(b, undefined, { sensitivity: 'accent' }) === 0;

async function personOf(store: Store, name: string): Promise<Person> {
	const all = await listPeople(store);
	const found = all.find((person) => person.name === name) ?? all.find((person) => same(person.name, name));
	return (
		found ?? refuse({ saw: name, expected: all.map((person) => person.name).join(', ') || 'nobody yet' })
	);
}

function said(done: Done, what: string): string {
	if (!done.ok) throw new Refusal(done.sentence);
	return `${done.person.name}: ${what}`;
}
