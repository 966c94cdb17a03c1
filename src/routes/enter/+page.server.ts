import { fail, redirect } from '@sveltejs/kit';
import {
	addressOf,
	anyPeople,
	currentStore,
	dropToken,
	endSession,
	endSessionsOf,
	enter,
	giveToken,
	passphraseLength,
	safePath
} from '$lib/server';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ url, setHeaders }) => {
	setHeaders({ 'cache-control': 'no-store' });
	return { locked: await anyPeople(currentStore()), to: safePath(url.searchParams.get('to')) };
};

const words = (seconds: number) =>
	seconds < 90 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`;

export const actions: Actions = {
	enter: async (event) => {
		const form = await event.request.formData();
		const [name, passphrase] = [form.get('name'), form.get('passphrase')];
		const most = passphraseLength.most * 4;
		if (
			typeof name !== 'string' ||
			typeof passphrase !== 'string' ||
			name.length > 200 ||
			passphrase.length > most
		)
			return fail(400, { sentence: 'Saw no name or no passphrase, expected both.' });
		const device = event.request.headers.get('user-agent') ?? '';
		const came = await enter(currentStore(), { name, passphrase, address: addressOf(event), device });
		if (came.kind === 'wait') {
			event.setHeaders({ 'retry-after': String(came.seconds) });
			return fail(429, { sentence: `Too many wrong tries. Wait ${words(came.seconds)}, then try again.` });
		}
		if (came.kind === 'wrong') return fail(403, { sentence: 'The name or the passphrase is wrong.' });
		giveToken(event, came.token);
		redirect(303, safePath(event.url.searchParams.get('to')));
	},
	leave: async (event) => {
		const { actor } = event.locals;
		if (actor?.session) await endSession(currentStore(), actor.session);
		event.locals.deed = { what: 'left', about: '' };
		dropToken(event);
		redirect(303, '/enter');
	},
	'leave-everywhere': async (event) => {
		const { actor } = event.locals;
		if (actor?.person) await endSessionsOf(currentStore(), actor.person);
		event.locals.deed = { what: 'left everywhere', about: '' };
		dropToken(event);
		redirect(303, '/enter');
	}
};
