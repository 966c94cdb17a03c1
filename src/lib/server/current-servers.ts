import { randomBytes } from 'node:crypto';
import { z } from 'zod';
import {
	addAccount,
	forgetAccount,
	setPassword,
	type loginSchema,
	type newAccountSchema
} from './caldav-accounts.ts';
import { DavTrouble } from './caldav-fetch.ts';
import { KeyTrouble } from './caldav-key.ts';
import { decide } from './caldav-proposals.ts';
import { findServer, makeCollection, type OfferedCollection } from './caldav-server.ts';
import { syncAccount } from './caldav-sync.ts';
import { currentStore } from './current.ts';
import { refusal } from './request.ts';

/** What the page of an account may ask. */
export const accountActSchema = z.discriminatedUnion('act', [
	z.strictObject({ act: z.literal('sync'), agreed: z.enum(['delete', 'restore']).optional() }),
	z.strictObject({ act: z.literal('password'), password: z.string().max(500) })
]);

export const decisionSchema = z.strictObject({ accept: z.boolean() });

const noAccount = (id: string) => refusal(404, 'no-account', `there is no calendar account ${id}`);

/** Trouble with the server or the key is the keeper's to read, not a bug. */
async function plainly(act: () => Promise<Response>): Promise<Response> {
	try {
		return await act();
	} catch (error) {
		if (error instanceof DavTrouble || error instanceof KeyTrouble)
			return refusal(422, 'calendar-server', error.message);
		throw error;
	}
}

/** Calendar servers as the web asks for them, on this process's store. */
export const currentServers = {
	find: (login: z.infer<typeof loginSchema>): Promise<Response> =>
		plainly(async () => Response.json({ collections: (await findServer(login.server, login)).collections })),

	add: (
		{ collection, create, scope, as, every = 15, ...login }: z.infer<typeof newAccountSchema>,
		origin: string
	): Promise<Response> =>
		plainly(async () => {
			const chosen =
				collection === undefined
					? await makeCollection(
							login.server,
							login,
							create ?? 'Lazaret',
							`lazaret-${randomBytes(6).toString('hex')}`,
							as === undefined ? ['VTODO', 'VEVENT'] : [as]
						)
					: await offered(login, collection);
			const kind = as ?? (chosen.takes.includes('VTODO') ? 'VTODO' : 'VEVENT');
			if (!chosen.takes.includes(kind))
				throw new DavTrouble('odd', `${chosen.name} takes no ${kind === 'VTODO' ? 'to-dos' : 'events'}.`);
			const account = { ...login, collection: chosen.url, name: chosen.name, kind, every } as const;
			const taken = await currentStore()
				.db.selectFrom('calendar_account')
				.select('id')
				.where('collection', '=', chosen.url)
				.executeTakeFirst();
			if (taken) throw new DavTrouble('odd', `${chosen.name} follows the plans already.`);
			const id = await addAccount(currentStore(), { ...account, scope: { ...scope, origin } });
			return Response.json(
				{ id, kind, name: chosen.name, report: await syncAccount(currentStore(), id) },
				{ status: 201 }
			);
		}),

	act: (id: string, asked: z.infer<typeof accountActSchema>): Promise<Response> =>
		plainly(async () => {
			if (asked.act === 'password' && !(await setPassword(currentStore(), id, asked.password)))
				return noAccount(id);
			const report = await syncAccount(
				currentStore(),
				id,
				asked.act === 'sync' ? (asked.agreed ?? null) : null
			);
			return report ? Response.json(report) : noAccount(id);
		}),

	forget: async (id: string): Promise<Response> =>
		(await forgetAccount(currentStore(), id)) ? Response.json({ forgotten: id }) : noAccount(id),

	decide: async (id: string, accept: boolean, who: string): Promise<Response> => {
		const decided = await decide(currentStore(), id, accept, who);
		if (decided.kind === 'none') return refusal(404, 'no-proposal', 'there is no such open proposal');
		if (decided.kind === 'refused') return refusal(409, 'not-possible', decided.sentence);
		return Response.json({ decided: id });
	}
};

/** The chosen collection as the server shows it: the address comes from a page, and has to be one of its own. */
async function offered(login: z.infer<typeof loginSchema>, url: string): Promise<OfferedCollection> {
	const { collections } = await findServer(login.server, login);
	const chosen = collections.find((one) => one.url === url);
	if (!chosen) throw new DavTrouble('odd', 'That calendar is not there any more: look again.');
	if (chosen.takes.length === 0)
		throw new DavTrouble('odd', `${chosen.name} takes neither to-dos nor events.`);
	return chosen;
}
