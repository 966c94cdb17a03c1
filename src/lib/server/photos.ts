import { patiently } from './fault.ts';
import type { Store } from './store.ts';

/** The kinds of picture that are kept, by the bytes they begin with. */
const kinds: readonly { type: string; begins: (bytes: Uint8Array) => boolean }[] = [
	{ type: 'image/jpeg', begins: (bytes) => startsWith(bytes, [0xff, 0xd8, 0xff]) },
	{
		type: 'image/png',
		begins: (bytes) => startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
	},
	{
		type: 'image/webp',
		begins: (bytes) =>
			startsWith(bytes, [0x52, 0x49, 0x46, 0x46]) && startsWith(bytes.subarray(8), [0x57, 0x45, 0x42, 0x50])
	}
];

const startsWith = (bytes: Uint8Array, start: readonly number[]): boolean =>
	start.every((byte, i) => bytes[i] === byte);

/** A page makes pictures smaller before it sends them; this much is far more than it ever sends. */
export const mostPhotoBytes = 2_000_000;
/** A run of eight weeks with several pictures a day stays below it. */
const mostPerRun = 500;

export interface NewPhoto {
	/** by the client, so that a resend stores nothing twice */
	id: string;
	run: string;
	bytes: Uint8Array;
	who: string;
}

export type Kept = { ok: true; made: boolean } | { ok: false; sentence: string };

/** Keeps a picture of a run. What it is is told by its bytes, whatever it was called. Null when there is no such run. */
export async function keepPhoto(store: Store, { id, run, bytes, who }: NewPhoto): Promise<Kept | null> {
	if (bytes.length > mostPhotoBytes)
		return { ok: false, sentence: `saw ${bytes.length} bytes, expected at most ${mostPhotoBytes}` };
	const type = kinds.find(({ begins }) => begins(bytes))?.type;
	if (!type) return { ok: false, sentence: 'saw another kind of file, expected a JPEG, PNG or WebP picture' };
	const received = store.now();
	return patiently(() =>
		store.db.transaction().execute(async (trx): Promise<Kept | null> => {
			const owner = await trx.selectFrom('run').select('id').where('id', '=', run).executeTakeFirst();
			if (!owner) return null;
			const { held } = await trx
				.selectFrom('photo')
				.select((e) => e.fn.countAll().as('held'))
				.where('run', '=', run)
				.executeTakeFirstOrThrow();
			if (Number(held) >= mostPerRun)
				return { ok: false, sentence: `saw ${mostPerRun} pictures in this run already, expected fewer` };
			const body = Buffer.from(bytes).toString('base64');
			const added = await trx
				.insertInto('photo')
				.values({ id, run, type, body, received, who })
				.onConflict((conflict) => conflict.column('id').doNothing())
				.executeTakeFirst();
			return { ok: true, made: Number(added.numInsertedOrUpdatedRows) > 0 };
		})
	);
}

export interface Photo {
	run: string;
	type: string;
	bytes: Buffer<ArrayBuffer>;
}

/** A stored picture; null when there is none of that id. */
export async function readPhoto(store: Store, id: string): Promise<Photo | null> {
	const row = await patiently(() =>
		store.db.selectFrom('photo').select(['run', 'type', 'body']).where('id', '=', id).executeTakeFirst()
	);
	return row ? { run: row.run, type: row.type, bytes: Buffer.from(row.body, 'base64') } : null;
}
