import AxeBuilder from '@axe-core/playwright';
import type { APIRequestContext } from '@playwright/test';
import { expect, test, visit } from './app.ts';

test.use({ viewport: { width: 390, height: 844 } });

/** Copper that rises to its aim in one step today, and a pulse whose second full dose is due a day after the first. */
async function steepRun(request: APIRequestContext) {
	const day = (n: number) => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10);
	const document = {
		format: 'lazaret-plan/1',
		name: 'Steep',
		timeZone: 'Etc/GMT',
		service: '00:01',
		tank: {
			name: 'Q7',
			net: '112 L',
			temperature: '26 C',
			salinity: '34 ppt',
			pH: 8.1,
			aeration: 'coarse'
		},
		lots: [{ id: 'a', what: 'goby', group: 'goby', count: 2, mass: '10 g', arrived: day(-4) }],
		medicines: [
			{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
			{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
		],
		phases: [
			{
				id: 'copper',
				kind: 'hold',
				medicine: 'cu',
				starts: `on ${day(0)}`,
				lasts: '28 d',
				level: '0.15-0.20 mg/L',
				aim: '0.18 mg/L',
				repeat: 'ramp 1 d',
				test: 'Cu daily'
			},
			{
				id: 'flukes',
				kind: 'pulse',
				medicine: 'pz',
				starts: `on ${day(-1)}`,
				lasts: '2 doses',
				level: '2.5 mg/L',
				repeat: 'every 1 d'
			}
		]
	};
	const made = await request.post('/api/runs', { data: { id: 'steep', document } });
	expect(made.ok(), await made.text()).toBe(true);
	const entry = { id: 'first', at: `${day(-1)}T00:05:00Z`, kind: 'done', task: 'flukes/dose/1' };
	const logged = await request.post('/api/runs/steep/log', { data: { entries: [entry] } });
	expect(logged.ok(), await logged.text()).toBe(true);
}

test('what stands against a job stands in its row, and is read out to whoever comes to it by keyboard', async ({
	page,
	request
}) => {
	await steepRun(request);
	await visit(page, '/today');
	const expected = [
		// 0.18 mg/L in 112 L of a 2 mg/mL bottle, down to the step: 10.0 mL, 0.179 mg/L
		{
			job: 'Ionic copper 10.0 mL',
			tone: 'Caution',
			says: /Caution\. .*raises ionic copper by 0\.179 mg\/L in one service/i
		},
		{ job: 'Praziquantel 280 mg', tone: 'Stop', says: /Stop\. .*comes 24 h after/ }
	];
	for (const { job, tone, says } of expected) {
		const row = page.getByRole('listitem', { name: job });
		const note = row.getByRole('note', { name: tone });
		await expect(note).toContainText(says);
		// what a stop forbids is not done by one touch: its sheet opens
		await expect(row.getByRole('button', { name: tone === 'Stop' ? 'Answer' : /^Done/ })).toBeVisible();
		await expect(row.getByRole('button', { name: /^Done/ })).toHaveCount(tone === 'Stop' ? 0 : 1);
		const details = row.getByRole('button', { name: /Details/ });
		await expect(details).toHaveAccessibleDescription(says);
		// from the top of the page with nothing but Tab
		await page.locator('main').focus();
		for (let n = 0; n < 40; n++) {
			if (await details.evaluate((node) => node === document.activeElement)) break;
			await page.keyboard.press('Tab');
		}
		await expect(details).toBeFocused();
		await page.keyboard.press('Enter');
		await expect(page.getByRole('dialog').getByRole('note', { name: tone })).toContainText(says);
		await page.keyboard.press('Escape');
	}
	// nowhere else: what is told on its job is not told of the tank a second time
	await expect(page.getByRole('note', { name: 'Stop' })).toHaveCount(1);
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 160)])).toEqual([]);
});
