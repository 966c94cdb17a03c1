import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/lib/run/index.ts';
import { getRun } from '../../src/lib/server/index.ts';
import { login, makes } from './calendar-server.ts';
import { rigOn, type Rig } from './caldav-rig.ts';

const ticked = (text: string): string =>
	text.replace(
		'STATUS:NEEDS-ACTION',
		`STATUS:COMPLETED\r\nCOMPLETED:${new Date().toISOString().replace(/[-:]|\.\d+/g, '')}`
	);

/** The edit that leaves only these rows of the sheet. */
async function only(rig: Rig, ...ids: string[]): Promise<Edit> {
	const was = (await getRun(rig.store, rig.run))?.document.phases as { id: string }[];
	return { path: ['phases'], was, to: was.filter(({ id }) => ids.includes(id)) };
}

const objectsOn = async (rig: Rig): Promise<string[]> => {
	await rig.phone.sync();
	return rig.phone.files();
};

/** Two sides changed at once, against both servers. */
describe.each(makes)('on %s', (make) => {
	test('ticked there while it is written here: the tick wins, the plan’s time wins, nothing is lost', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		// here: a move of the first dose, so that its object has to be written
		await rig.edit({ path: ['moves'], was: undefined, to: { 'settle/test/2': rig.day(2) } });
		const today = 'UID:settle/test/1@harbour';
		await rig.edit({ path: ['tank', 'name'], was: 'Q7', to: 'Q8' });
		let between = false;
		rig.between.meddle = async ({ method }) => {
			if (method !== 'PUT' || between) return undefined;
			between = true;
			rig.phone.change(today, ticked);
			await rig.phone.sync();
			return undefined;
		};
		const report = await rig.sync();
		expect(report.trouble).toBeNull();
		expect(rig.between.passed.map(({ status }) => status)).toContain(412);
		expect(await rig.log()).toMatchObject([{ kind: 'done', task: 'settle/test/1' }]);
		await rig.phone.sync();
		const shown = rig.phone.read(today);
		expect(shown).toMatch(/^STATUS:COMPLETED\r?$/m);
		expect(shown).toMatch(/^SUMMARY:Q8: /m);
	});

	test('every write to a known object carries If-Match, every new one If-None-Match', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.edit({ path: ['tank', 'name'], was: 'Q7', to: 'Q8' });
		await rig.edit(await only(rig, 'settle', 'copper'));
		await rig.sync();
		const seen = new Set<string>();
		for (const { method, path, headers } of rig.between.passed) {
			if (method !== 'PUT' && method !== 'DELETE') continue;
			if (method === 'PUT' && !seen.has(path)) expect(headers['if-none-match']).toBe('*');
			else expect(headers['if-match']).toMatch(/^"/);
			seen.add(path);
		}
		expect(rig.between.passed.some(({ method }) => method === 'DELETE')).toBe(true);
	});

	test('dropped here while ticked there: logged with its amount, then gone; a copy that comes back stays away', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		const dose = 'UID:flukes/dose/1@harbour';
		rig.phone.change(dose, ticked);
		const copy = rig.phone.read(dose);
		await rig.phone.sync();
		await rig.edit(await only(rig, 'settle', 'copper'));
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toContain('The plan had dropped it meanwhile');
		expect(await rig.log()).toMatchObject([{ kind: 'dose', medicine: 'pz', amount: '280 mg' }]);
		expect((await objectsOn(rig)).length).toBeGreaterThan(0);
		expect(rig.phone.holds(dose)).toBe(false);

		// another program puts its old copy back under a name of its own
		const put = await fetch(`${rig.collection}revenant.ics`, {
			method: 'PUT',
			body: copy,
			headers: {
				authorization: `Basic ${btoa(`${login.user}:${login.password}`)}`,
				'content-type': 'text/calendar'
			}
		});
		expect([201, 204]).toContain(put.status);
		await rig.sync();
		await rig.phone.sync();
		expect(rig.phone.holds(dose)).toBe(false);
		expect(await rig.log()).toHaveLength(1);
	});

	test('deleted there while planned: written again; deleted there when done: stays away', async () => {
		const rig = await rigOn(make);
		await rig.done({
			id: 'a',
			at: new Date(Date.now() - 60_000).toISOString(),
			kind: 'done',
			task: 'settle/test/1'
		});
		await rig.sync();
		await rig.phone.sync();
		for (const uid of ['UID:settle/test/1@harbour', 'UID:settle/test/2@harbour'])
			rig.phone.change(uid, () => null);
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toContain('was deleted there: it is still planned');
		await rig.phone.sync();
		expect(rig.phone.holds('UID:settle/test/1@harbour')).toBe(false);
		expect(rig.phone.holds('UID:settle/test/2@harbour')).toBe(true);
	});

	test('no more than half is taken away without asking, and none is written back without asking', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		const all = await objectsOn(rig);
		await rig.edit(await only(rig, 'settle'));
		const asked = await rig.sync();
		expect(asked.question).toMatchObject({ about: 'delete', of: all.length });
		expect(await objectsOn(rig)).toHaveLength(all.length);
		expect((await rig.sync('delete')).question).toBeNull();
		const left = await objectsOn(rig);
		expect(left).toHaveLength(all.length - (asked.question?.count ?? 0));

		for (let n = left.length; n > 0; n--) rig.phone.change('BEGIN:VTODO', () => null);
		await rig.phone.sync();
		expect((await rig.sync()).question).toEqual({ about: 'restore', count: left.length, of: left.length });
		expect(await objectsOn(rig)).toHaveLength(0);
		expect((await rig.sync('restore')).question).toBeNull();
		expect(await objectsOn(rig)).toHaveLength(left.length);
	});
});
