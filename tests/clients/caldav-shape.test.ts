import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { decide, openProposals, planFileOf } from '../../src/lib/server/index.ts';
import { makes } from './calendar-server.ts';
import { rigOn } from './caldav-rig.ts';
import { khalIn } from './khal.ts';

/** The other forms a plan takes on a server: a service at once, a whole day, an event. */
describe.each(makes)('on %s', (make) => {
	test('a service as one to-do: ticked once, each of its jobs is logged with its own amount', async () => {
		const rig = await rigOn(make, { per: 'service' });
		expect((await rig.sync()).trouble).toBeNull();
		const written = rig.between.writes();
		await rig.phone.sync();
		expect((await rig.phone.shown()).open).toHaveLength(written.length);
		const uid = 'UID:copper/service/1@harbour';
		expect(rig.phone.read(uid)).toMatch(/^SUMMARY:Q7: Test Cu\\, ionic copper [\d.]+ mL\r?$/m);
		rig.clock.aheadMs = 3 * 24 * 3_600_000;
		await rig.sync();
		await rig.phone.sync();
		// a phone whose clock goes with the app's
		const at = new Date(Date.now() + rig.clock.aheadMs).toISOString().replace(/[-:]|\.\d+/g, '');
		rig.phone.change(uid, (text) =>
			text.replace('STATUS:NEEDS-ACTION', `STATUS:COMPLETED\r\nCOMPLETED:${at}`)
		);
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toContain('logged here. Its reading is still to be typed.');
		const logged = await rig.log();
		expect(logged).toMatchObject([
			{ kind: 'done', task: 'copper/test/1' },
			{ kind: 'done', task: 'copper/dose/1', amount: expect.stringMatching(/ mL$/) }
		]);
		await rig.sync();
		expect(await rig.log()).toEqual(logged);
		rig.between.writes();
		await rig.sync();
		expect(rig.between.writes()).toEqual([]);
		await rig.phone.sync();
		expect(rig.phone.read(uid)).toMatch(/^STATUS:COMPLETED\r?$/m);
	});

	test('a service moved there moves all of its jobs, or none', async () => {
		const rig = await rigOn(make, { per: 'service' });
		await rig.sync();
		await rig.phone.sync();
		const day = rig.day(1).replaceAll('-', '');
		const second = 'UID:settle/service/2@harbour';
		rig.phone.change(second, (text) => text.replace(`DUE:${day}`, `DUE:${rig.day(2).replaceAll('-', '')}`));
		// the doses of a ramp follow one another
		const ramp = 'UID:copper/service/1@harbour';
		rig.phone.change(ramp, (text) => text.replace(/^DUE:\d{8}/m, `DUE:${rig.day(4).replaceAll('-', '')}`));
		await rig.phone.sync();
		const { sentences } = await rig.sync();
		expect(sentences.join('\n')).toMatch(/was moved to .* there and is put back\. Ionic copper .* stays on/);
		const [proposal, ...others] = await openProposals(rig.store);
		expect(others).toEqual([]);
		expect(proposal).toMatchObject({ task: 'settle/service/2', day: `${rig.day(2)}T08:00`, refusal: null });
		expect(await decide(rig.store, proposal?.id ?? '', true, 'ada')).toEqual({ kind: 'done' });
		expect((await planFileOf(rig.store, rig.run))?.moves).toEqual({ 'settle/test/2': rig.day(2) });
	});

	test('a whole day as a to-do: due that day, ticked, moved by days', async () => {
		const rig = await rigOn(make, { allDay: true, alarms: { test: 30 } });
		await rig.sync();
		await rig.phone.sync();
		const second = 'UID:settle/test/2@harbour';
		const text = rig.phone.read(second);
		expect(text).toContain(`DUE;VALUE=DATE:${rig.day(1).replaceAll('-', '')}`);
		// half an hour before eight, counted from midnight; one of the servers writes it in hours
		expect(text).toMatch(/^TRIGGER;RELATED=END:PT(450M|7H30M)\r?$/m);
		rig.phone.change(second, (body) =>
			body.replace(/^DUE;VALUE=DATE:\d+/m, `DUE;VALUE=DATE:${rig.day(2).replaceAll('-', '')}`)
		);
		await rig.phone.tick('Q7: Test NH3');
		await rig.phone.sync();
		await rig.sync();
		expect(await rig.log()).toMatchObject([{ kind: 'done', task: 'settle/test/1' }]);
		expect(await openProposals(rig.store)).toMatchObject([{ task: 'settle/test/2', day: rig.day(2) }]);
		rig.between.writes();
		await rig.sync();
		expect(rig.between.writes()).toEqual([]);
	});

	test.each([{}, { allDay: true }, { per: 'service' as const }])(
		'events where a calendar takes no to-dos, %j: seen in khal, done marked, moved as a proposal',
		async (shape) => {
			const rig = await rigOn(make, { as: 'VEVENT', ...shape });
			expect((await rig.sync()).trouble).toBeNull();
			await rig.phone.sync();
			const khal = khalIn(rig.folder, join(rig.folder, 'phone', 'run'));
			const written = rig.between.writes();
			const shown = await khal.shown(rig.day(0));
			expect(shown).toHaveLength(written.length);
			const first = shape.per ? 'settle/service/1@harbour' : 'settle/test/1@harbour';
			expect(shown.find((line) => line.startsWith(first))).toContain('|Q7: Test NH3|');

			await rig.done({
				id: 'a',
				at: new Date(Date.now() - 60_000).toISOString(),
				kind: 'done',
				task: 'settle/test/1'
			});
			const [day, next] = [rig.day(1), rig.day(2)].map((text) => text.replaceAll('-', ''));
			rig.phone.change(`UID:settle/${shape.per ?? 'test'}/2@harbour`, (text) =>
				text.replace(new RegExp(`^(DTSTART.*:)${day}`, 'm'), `$1${next}`)
			);
			await rig.phone.sync();
			expect((await rig.sync()).sentences.join('\n')).toContain('accept or refuse it');
			// an event of a whole day says no hour
			const to = shape.allDay ? rig.day(2) : `${rig.day(2)}T08:00`;
			expect(await openProposals(rig.store)).toMatchObject([{ day: to, refusal: null }]);
			await rig.phone.sync();
			const after = await khal.shown(rig.day(0));
			expect(after).toHaveLength(shown.length);
			expect(after.find((line) => line.startsWith(first))).toMatch(/\|✓ Q7: Test NH3\|CONFIRMED$/);
			// put back until it is decided
			expect(after.filter((line) => !line.startsWith(first))).toEqual(
				shown.filter((line) => !line.startsWith(first))
			);
			rig.between.writes();
			await rig.sync();
			expect(rig.between.writes()).toEqual([]);
		}
	);
});
