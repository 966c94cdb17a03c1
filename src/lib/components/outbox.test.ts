import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { localInstant } from './local-instant.ts';
import { Outbox, type OutboxState } from './outbox.ts';
import { answerOf, type PostAnswer } from './outbox-post.ts';
import { Shelf, type LogEntry } from './outbox-shelf.ts';

/** Storage as a browser has it: strings by key, shared by its tabs; `room` is how many keys it takes. */
class Device {
	readonly #values = new Map<string, string>();
	room = Infinity;
	get length() {
		return this.#values.size;
	}
	key = (n: number) => [...this.#values.keys()][n] ?? null;
	getItem = (key: string) => this.#values.get(key) ?? null;
	removeItem = (key: string) => void this.#values.delete(key);
	setItem = (key: string, value: string) => {
		if (!this.#values.has(key) && this.#values.size >= this.room) throw new Error('full');
		this.#values.set(key, value);
	};
}

type Weather = 'fair' | 'no request arrives' | 'no answer arrives';

/** A store as the app's own: an id it knows adds nothing, a correction needs its entry, all of a batch or none. */
class Store {
	readonly log: LogEntry[] = [];
	readonly sizes: number[] = [];
	weather: () => Weather = () => 'fair';

	post = async (_run: string, entries: readonly LogEntry[]): Promise<PostAnswer> => {
		const sky = this.weather();
		await Promise.resolve();
		if (sky === 'no request arrives') return { kind: 'away', sentence: 'no network' };
		const answer = this.#take(entries);
		return sky === 'no answer arrives' ? { kind: 'away', sentence: 'no network' } : answer;
	};

	#take(entries: readonly LogEntry[]): PostAnswer {
		this.sizes.push(entries.length);
		const known = new Set([...this.log, ...entries].map(({ id }) => id));
		const bad = entries.find(
			({ kind, entry }) => kind === 'nonsense' || (kind === 'correct' && !known.has(String(entry)))
		);
		if (bad) return { kind: 'refused', sentence: `${bad.id}: expected a known kind` };
		for (const entry of entries) if (!this.log.some(({ id }) => id === entry.id)) this.log.push(entry);
		return { kind: 'taken' };
	}
}

/** One tab: its outbox over the device's storage, its timers rung by hand. */
function tab(store: Store, device: Device | null, name = 'a') {
	const timers: (() => void)[] = [];
	const told: { state?: OutboxState; sent: string[] } = { sent: [] };
	let made = 0;
	const box = new Outbox({
		shelf: new Shelf(device),
		post: store.post,
		newId: () => `${name}${++made}`,
		nowMs: () => 1_000,
		nowText: () => '2026-11-30T08:00:00Z',
		later: (act) => timers.push(act),
		changed: (state) => (told.state = state),
		sent: (runs) => told.sent.push(...runs)
	});
	const ring = async () => {
		timers.splice(0).forEach((act) => act());
		await settled(box);
	};
	return { box, ring, told, timers };
}

/** Waits until the outbox has nothing in flight: a flush joins the one under way. */
async function settled(box: Outbox) {
	for (let turns = 0; turns < 100; turns++) await Promise.resolve();
	await box.flush();
}

const ids = (store: Store) => store.log.map(({ id }) => id);

describe('an outbox', () => {
	test('sends at once while the store answers, and tells which run was reached', async () => {
		const [store, device] = [new Store(), new Device()];
		const { box, told } = tab(store, device);
		box.append('r', { kind: 'done', task: 'copper/dose/1' });
		await settled(box);
		expect(store.log).toEqual([
			{ id: 'a1', at: '2026-11-30T08:00:00Z', kind: 'done', task: 'copper/dose/1' }
		]);
		expect(told.sent).toEqual(['r']);
		expect([box.state.waiting.length, device.length]).toEqual([0, 0]);
	});

	test('keeps ten entries across a reload without network, and sends each once and in order', async () => {
		const [store, device] = [new Store(), new Device()];
		store.weather = () => 'no request arrives';
		const before = tab(store, device);
		for (let n = 0; n < 10; n++) before.box.append(n % 3 ? 'r' : 'q', { kind: 'done', task: `t/${n}` });
		await settled(before.box);
		expect(before.box.state.waiting.length).toBe(10);
		expect(before.box.state.trouble).toBe('no network');

		const after = tab(store, device, 'b');
		expect(after.box.state.waiting.map(({ entry }) => entry.task)).toEqual(
			Array.from({ length: 10 }, (_, n) => `t/${n}`)
		);
		store.weather = () => 'fair';
		await after.box.flush();
		await before.ring();
		expect(ids(store).length).toBe(10);
		expect(new Set(ids(store)).size).toBe(10);
		const order = (rest: number[]) => rest.map((n) => `a${n}`);
		expect(ids(store).filter((id) => ['a1', 'a4', 'a7', 'a10'].includes(id))).toEqual(order([1, 4, 7, 10]));
		expect(after.box.state).toMatchObject({ waiting: [], refused: [], trouble: '' });
	});

	test('sets a refused entry aside with its sentence, and sends those behind it', async () => {
		const [store, device] = [new Store(), new Device()];
		store.weather = () => 'no request arrives';
		const { box } = tab(store, device);
		for (const kind of ['done', 'nonsense', 'done']) box.append('r', { kind });
		await settled(box);
		store.weather = () => 'fair';
		await box.flush();
		expect(ids(store)).toEqual(['a1', 'a3']);
		expect(box.state.refused.map(({ entry, refusal }) => [entry.id, refusal])).toEqual([
			['a2', 'a2: expected a known kind']
		]);
		expect(tab(store, device).box.state.refused.length).toBe(1);
		box.again('a2');
		await settled(box);
		expect(box.state.refused.length).toBe(1);
		box.letGo('a2');
		expect(box.state.refused).toEqual([]);
	});

	test('takes back what never left without a trace, and voids what may have arrived', async () => {
		const [store, device] = [new Store(), new Device()];
		const { box } = tab(store, device);
		box.append('r', { kind: 'done' });
		await settled(box);
		expect(box.takeBack('r', 'a1')).toBe('voided');
		store.weather = () => 'no answer arrives';
		box.append('r', { kind: 'done' });
		// the one before is still in flight, so this one has not left
		box.append('r', { kind: 'missed' });
		expect(box.takeBack('r', 'a4')).toBe('dropped');
		await settled(box);
		expect(box.takeBack('r', 'a3')).toBe('voided');
		store.weather = () => 'fair';
		await box.flush();
		expect(store.log.map(({ id, kind, entry }) => [id, kind, entry])).toEqual([
			['a1', 'done', undefined],
			['a2', 'correct', 'a1'],
			['a3', 'done', undefined],
			['a5', 'correct', 'a3']
		]);
	});

	test('a refused entry that was taken back goes together with what takes it back', async () => {
		const [store, device] = [new Store(), new Device()];
		store.weather = () => 'no request arrives';
		const { box } = tab(store, device);
		box.append('r', { kind: 'nonsense' });
		await settled(box);
		box.takeBack('r', 'a1');
		await settled(box);
		store.weather = () => 'fair';
		await settled(box);
		expect(box.state).toMatchObject({ waiting: [], refused: [] });
		expect(store.log).toEqual([]);
	});

	test('a way that was taken goes alone and in its turn, and tells of its run when it is refused', async () => {
		const [store, device] = [new Store(), new Device()];
		store.weather = () => 'no request arrives';
		const { box, told } = tab(store, device);
		const way = { title: 'Give it now', text: 'a dose', does: { release: null, danger: null, edits: [] } };
		box.append('r', { kind: 'done' });
		box.append('r', { kind: 'done' });
		box.append('r', { kind: 'nonsense' }, way);
		box.append('r', { kind: 'done' });
		await settled(box);
		// kept with what it was shown to do, for whoever opens the page next
		expect(tab(store, device).box.state.waiting[2]?.way).toEqual(way);
		store.weather = () => 'fair';
		await box.flush();
		expect(store.sizes).toEqual([2, 1, 1]);
		expect(ids(store)).toEqual(['a1', 'a2', 'a4']);
		expect(box.state.refused.map(({ way: held }) => held)).toEqual([way]);
		expect(told.sent).toEqual(['r']);
	});

	test('says when the device keeps nothing, and sends all the same', async () => {
		for (const device of [null, new Device()]) {
			if (device) device.room = 0;
			const store = new Store();
			store.weather = () => 'no request arrives';
			const { box, ring } = tab(store, device);
			box.append('r', { kind: 'done' });
			box.append('r', { kind: 'done' });
			await settled(box);
			expect(box.state.lasting).toBe(false);
			store.weather = () => 'fair';
			await ring();
			expect(ids(store)).toEqual(['a1', 'a2']);
			expect(box.state.lasting).toBe(true);
		}
	});

	test('waits with one timer, however often it is asked', async () => {
		const store = new Store();
		store.weather = () => 'no request arrives';
		const { box, timers } = tab(store, new Device());
		box.append('r', { kind: 'done' });
		for (let n = 0; n < 5; n++) await settled(box);
		expect(timers.length).toBe(1);
	});

	test('law: whatever the network loses and however many tabs send, each entry arrives once and in order', async () => {
		const skies = fc.constantFrom<Weather>('fair', 'no request arrives', 'no answer arrives');
		const acts = fc.array(fc.constantFrom('log in a', 'log in b', 'ring', 'reload a'), { maxLength: 20 });
		await fc.assert(
			fc.asyncProperty(acts, fc.array(skies, { minLength: 1, maxLength: 12 }), async (steps, weathers) => {
				const [store, device] = [new Store(), new Device()];
				let n = 0;
				store.weather = () => weathers[n++ % weathers.length] ?? 'fair';
				let tabs = { a: tab(store, device, 'a0-'), b: tab(store, device, 'b-') };
				const made: string[] = [];
				for (const [at, step] of steps.entries()) {
					if (step === 'reload a') tabs = { ...tabs, a: tab(store, device, `a${at + 1}-`) };
					else if (step === 'ring') await Promise.all([tabs.a.ring(), tabs.b.ring()]);
					else made.push(tabs[step === 'log in a' ? 'a' : 'b'].box.append('r', { kind: 'done' }).id);
				}
				store.weather = () => 'fair';
				await Promise.all([settled(tabs.a.box), settled(tabs.b.box)]);
				await tabs.a.box.flush();
				expect(ids(store)).toEqual(made);
				expect(device.length).toBe(0);
			}),
			{ numRuns: 300, seed: 7 }
		);
	});
});

test('an answer counts only when it is the store’s own', () => {
	expect(answerOf(200, { added: 0 })).toEqual({ kind: 'taken' });
	expect(answerOf(200, {}).kind).toBe('away');
	expect(answerOf(0, null).kind).toBe('away');
	expect(answerOf(404, { message: 'not here' }).kind).toBe('away');
	expect(answerOf(422, { error: { code: 'x', message: 'no' } })).toEqual({ kind: 'refused', sentence: 'no' });
	for (const status of [401, 429, 500, 503])
		expect(answerOf(status, { error: { message: 'later' } })).toEqual({ kind: 'away', sentence: 'later' });
});

// ISO 8601: the wall clock of the offset, then the offset itself
test.each([
	[-360, '2026-11-30T08:12:05.120-06:00'],
	[345, '2026-11-30T19:57:05.120+05:45'],
	[-210, '2026-11-30T10:42:05.120-03:30'],
	[0, '2026-11-30T14:12:05.120+00:00']
])('an offset of %i minutes is written with the wall clock', (minutes, text) => {
	const ms = Date.parse('2026-11-30T14:12:05.120Z');
	expect(localInstant(ms, minutes)).toBe(text);
	expect(Date.parse(text)).toBe(ms);
});
