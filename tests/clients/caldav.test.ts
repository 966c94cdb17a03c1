import { describe, expect, test } from 'vitest';
import { makes } from './calendar-server.ts';
import { rigOn } from './caldav-rig.ts';
import { decide, openProposals, planFileOf } from '../../src/lib/server/index.ts';

/** Everything against two servers of different makes, with vdirsyncer and todoman as the phone. */
describe.each(makes)('on %s', (make) => {
	test('plan, push, ticked on the phone, logged once with its time; an idle look writes nothing', async () => {
		const rig = await rigOn(make);
		expect((await rig.sync()).trouble).toBeNull();
		const written = rig.between.writes();
		expect(written.length).toBeGreaterThan(12);
		expect(new Set(written).size).toBe(written.length);
		expect(await rig.sync()).toEqual({ trouble: null, question: null, sentences: [] });
		expect(rig.between.writes()).toEqual([]);

		await rig.phone.sync();
		expect((await rig.phone.shown()).open).toHaveLength(written.length);
		const before = Date.now() - 1000;
		await rig.phone.tick('Q7: Test NH3');
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toMatch(/^Q7: Test NH3: done there on .*, logged here\. Its reading/);
		const [entry, ...more] = await rig.log();
		expect(more).toEqual([]);
		expect(entry).toMatchObject({ kind: 'done', task: 'settle/test/1' });
		expect(Date.parse(entry?.at ?? '')).toBeGreaterThan(before);
		expect(Date.parse(entry?.at ?? '')).toBeLessThanOrEqual(Date.now());
		await rig.sync();
		expect(await rig.log()).toHaveLength(1);
		rig.between.writes();
		await rig.sync();
		expect(rig.between.writes()).toEqual([]);
		await rig.phone.sync();
		expect((await rig.phone.shown()).done).toEqual(['Q7: Test NH3']);
	});

	test('what other programs wrote on a task survives, what is the plan’s comes back', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		rig.phone.change('UID:flukes/dose/1@harbour', (text) =>
			text
				.replace(/SUMMARY:.*/, 'SUMMARY:Skip it')
				.replace('END:VTODO', 'PRIORITY:1\r\nX-PHONE-SORT:7\r\nEND:VTODO')
		);
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toContain('its title was changed there and is put back');
		await rig.phone.sync();
		rig.phone.change('UID:flukes/dose/1@harbour', (text) => {
			expect(text).toMatch(/^PRIORITY:1\r?$/m);
			expect(text).toMatch(/^X-PHONE-SORT:7\r?$/m);
			expect(text).toMatch(/^SUMMARY:Q7: /m);
			return text;
		});
	});

	test('a time moved there waits as a proposal and goes into the plan on a yes', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		rig.phone.change('UID:flukes/dose/2@harbour', (text) => moved(text, 1));
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toContain(`to ${rig.day(13)} at 08:00 there: accept or refuse`);
		// until then the phone shows the planned time
		await rig.phone.sync();
		expect(dueOf(rig.phone.read('UID:flukes/dose/2@harbour'))).toBe(rig.day(12));
		const [proposal, ...others] = await openProposals(rig.store);
		expect(others).toEqual([]);
		expect(proposal).toMatchObject({ task: 'flukes/dose/2', day: `${rig.day(13)}T08:00`, refusal: null });
		expect(proposal?.changes.length).toBeGreaterThan(0);
		expect(await decide(rig.store, proposal?.id ?? '', true, 'ada')).toEqual({ kind: 'done' });
		expect(await openProposals(rig.store)).toEqual([]);
		expect((await planFileOf(rig.store, rig.run))?.moves).toEqual({ 'flukes/dose/2': rig.day(13) });
		await rig.sync();
		await rig.phone.sync();
		expect(dueOf(rig.phone.read('UID:flukes/dose/2@harbour'))).toBe(rig.day(13));
	});

	test('a time moved to a forbidden place is refused, said, and put back', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		// the second dose long after the first: eggs hatch, worms lay
		rig.phone.change('UID:flukes/dose/2@harbour', (text) => moved(text, 9));
		rig.phone.change('UID:settle/test/2@harbour', (text) => moved(text, -9));
		await rig.phone.sync();
		const said = (await rig.sync()).sentences.filter((sentence) => /is put back/.test(sentence));
		expect(said).toHaveLength(2);
		expect(said.join('\n')).toContain(`${rig.day(-8)} is over`);
		expect(await openProposals(rig.store)).toEqual([]);
		await rig.phone.sync();
		expect(dueOf(rig.phone.read('UID:flukes/dose/2@harbour'))).toBe(rig.day(12));
		rig.between.writes();
		await rig.sync();
		expect(rig.between.writes()).toEqual([]);
	});
});

/** The text with its due time some days on. */
const moved = (text: string, days: number): string =>
	text.replace(/^DUE:(\d{4})(\d\d)(\d\d)T/m, (_due, year: string, month: string, day: string) => {
		const to = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day) + days));
		return `DUE:${to.toISOString().slice(0, 10).replaceAll('-', '')}T`;
	});

const dueOf = (text: string): string => text.replace(/[^]*^DUE:(\d{4})(\d\d)(\d\d)T[^]*/m, '$1-$2-$3');
