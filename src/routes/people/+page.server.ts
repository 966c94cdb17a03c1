import { fail, redirect } from '@sveltejs/kit';
import {
	addPerson,
	addressOf,
	anyPeople,
	currentStore,
	endSessionsOf,
	giveToken,
	listPeople,
	listSessions,
	openSession,
	readDeeds,
	removePerson,
	roleOf,
	setPassphrase,
	setRole,
	writeDeed,
	type Done
} from '$lib/server';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

export const load: PageServerLoad = async () => {
	const store = currentStore();
	const [people, sessions, deeds] = [
		await listPeople(store),
		await listSessions(store),
		await readDeeds(store)
	];
	return {
		people: people.map((person) => ({
			...person,
			devices: sessions.filter((session) => session.person === person.id)
		})),
		deeds
	};
};

/** The fields of a form as text; anything else, a file for instance, counts as empty. */
async function fieldsOf({ request }: RequestEvent): Promise<(name: string) => string> {
	const form = await request.formData();
	return (name) => {
		const value = form.get(name);
		return typeof value === 'string' ? value.slice(0, 1000) : '';
	};
}

function answer(event: RequestEvent, done: Done, what: string) {
	if (!done.ok) return fail(422, { sentence: done.sentence });
	event.locals.deed = { what, about: done.person.name };
	return { done: `${done.person.name}: ${what}.` };
}

const noRole = 'Saw no role, expected viewer, helper or keeper.';

export const actions: Actions = {
	add: async (event) => {
		const [store, field] = [currentStore(), await fieldsOf(event)];
		const role = roleOf(field('role'));
		if (!role) return fail(422, { sentence: noRole });
		const first = !(await anyPeople(store));
		const done = await addPerson(store, { name: field('name'), role, passphrase: field('passphrase') });
		if (!first || !done.ok) return answer(event, done, `may enter as ${role}`);
		// who names the first keeper is in; from here on everybody else has to enter
		giveToken(event, await openSession(store, done.person.id, event.request.headers.get('user-agent') ?? ''));
		const { name } = done.person;
		await writeDeed(store, {
			who: name,
			what: 'became the first keeper',
			about: name,
			address: addressOf(event)
		});
		redirect(303, '/people');
	},
	role: async (event) => {
		const field = await fieldsOf(event);
		const role = roleOf(field('role'));
		if (!role) return fail(422, { sentence: noRole });
		return answer(event, await setRole(currentStore(), field('person'), role), `is now ${role}`);
	},
	passphrase: async (event) => {
		const field = await fieldsOf(event);
		const own = field('person') === event.locals.actor?.person ? event.locals.actor.session : null;
		const done = await setPassphrase(currentStore(), field('person'), field('passphrase'), own);
		return answer(event, done, 'has a new passphrase');
	},
	remove: async (event) => {
		const field = await fieldsOf(event);
		return answer(event, await removePerson(currentStore(), field('person')), 'may enter no more');
	},
	out: async (event) => {
		const [store, field] = [currentStore(), await fieldsOf(event)];
		const person = (await listPeople(store)).find(({ id }) => id === field('person'));
		if (!person) return fail(422, { sentence: 'There is no such person.' });
		await endSessionsOf(store, person.id);
		return answer(event, { ok: true, person }, 'was logged out everywhere');
	}
};
