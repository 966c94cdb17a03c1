import { fail } from '@sveltejs/kit';
import { addressOf, changeOwn, currentStore, endSession, listSessions } from '$lib/server';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals: { actor } }) => ({
	here: actor?.session ?? null,
	devices: actor?.person ? await listSessions(currentStore(), actor.person) : []
});

const text = (value: FormDataEntryValue | null) => (typeof value === 'string' ? value.slice(0, 1000) : '');
const nobody = { sentence: 'Nobody has to enter here.' };

export const actions: Actions = {
	passphrase: async (event) => {
		const { actor } = event.locals;
		if (!actor) return fail(422, nobody);
		const form = await event.request.formData();
		const [old, fresh] = [text(form.get('old')), text(form.get('passphrase'))];
		const done = await changeOwn(currentStore(), actor, { old, fresh, address: addressOf(event) });
		if (!done.ok) return fail(422, { sentence: done.sentence });
		return { done: 'The new passphrase holds. Every other device is logged out.' };
	},
	end: async (event) => {
		const { actor } = event.locals;
		if (!actor?.person) return fail(422, nobody);
		const form = await event.request.formData();
		const ended = await endSession(currentStore(), text(form.get('session')), actor.person);
		return ended
			? { done: 'That device is logged out.' }
			: fail(422, { sentence: 'That device is out already.' });
	}
};
