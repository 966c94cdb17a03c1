import { describe, expect, test } from 'vitest';
import { engines, freshStore } from './fresh-store.ts';
import { keepPhoto, mostPhotoBytes, readPhoto } from './photos.ts';
import { createRun } from './runs.ts';

/** How each format begins: ITU-T T.81 annex B (JPEG), PNG specification 5.2, RFC 9649 2.4 (WebP). */
const jpeg = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16);
const webp = new TextEncoder().encode('RIFF....WEBPVP8 ');

describe.each(engines)('pictures in %s', (engine) => {
	const open = async () => {
		const store = await freshStore(engine);
		await createRun(store, { id: 'r', document: { format: 'lazaret-plan/1' }, who: 'ada' });
		return store;
	};

	test('are told by their bytes and come back as they were', async () => {
		const store = await open();
		expect(await keepPhoto(store, { id: 'a', run: 'r', bytes: jpeg, who: 'ada' })).toEqual({
			ok: true,
			made: true
		});
		await keepPhoto(store, { id: 'b', run: 'r', bytes: webp, who: 'ada' });
		expect(await readPhoto(store, 'a')).toEqual({ run: 'r', type: 'image/jpeg', bytes: Buffer.from(jpeg) });
		expect((await readPhoto(store, 'b'))?.type).toBe('image/webp');
		expect(await readPhoto(store, 'c')).toBeNull();
	});

	test('are kept once, whoever sends them again', async () => {
		const store = await open();
		await keepPhoto(store, { id: 'a', run: 'r', bytes: jpeg, who: 'ada' });
		expect(await keepPhoto(store, { id: 'a', run: 'r', bytes: webp, who: 'bo' })).toEqual({
			ok: true,
			made: false
		});
		expect((await readPhoto(store, 'a'))?.type).toBe('image/jpeg');
	});

	test.each([
		['another kind of file', new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>')],
		['a WAV, which begins like a WebP', new TextEncoder().encode('RIFF....WAVEfmt ')],
		['nothing', new Uint8Array(0)]
	])('refuse %s', async (_, bytes) => {
		const store = await open();
		expect(await keepPhoto(store, { id: 'a', run: 'r', bytes, who: 'ada' })).toMatchObject({ ok: false });
		expect(await readPhoto(store, 'a')).toBeNull();
	});

	test('refuse what is too large, and belong to a run', async () => {
		const store = await open();
		const large = new Uint8Array(mostPhotoBytes + 1);
		large.set(jpeg);
		expect(await keepPhoto(store, { id: 'a', run: 'r', bytes: large, who: 'ada' })).toMatchObject({
			ok: false
		});
		expect(await keepPhoto(store, { id: 'a', run: 'x', bytes: jpeg, who: 'ada' })).toBeNull();
	});
});
