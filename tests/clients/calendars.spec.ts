import AxeBuilder from '@axe-core/playwright';
import type { Locator } from '@playwright/test';
import { login, makes } from './calendar-server.ts';
import { expect, test, type Desk } from './keeper-desk.ts';

const lineOf = (account: Locator, way: string, says: RegExp): Locator =>
	account.getByRole('row').filter({ hasText: way }).filter({ hasText: says });

const compact = (day: string): string => day.replaceAll('-', '');

/** The due day of a to-do on the phone, moved by hand. */
const dueOn = (day: string) => (text: string) => text.replace(/^DUE:\d{8}/m, `DUE:${compact(day)}`);

/** The page as it stands breaks no rule of accessibility and fits a phone. */
async function stands({ page }: Desk): Promise<void> {
	for (const colorScheme of ['light', 'dark'] as const) {
		await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
		const { violations } = await new AxeBuilder({ page }).analyze();
		expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
	}
	const wide = page.viewportSize();
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
	const heights = await page
		.locator('main button:visible, main select:visible, main input[type=password]:visible')
		.evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().height)));
	expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
	if (wide) await page.setViewportSize(wide);
}

for (const make of makes)
	test.describe(`on ${make}`, () => {
		test.use({ make });

		test('an account is added, a tick and two moves come in, one is accepted and one refused', async ({
			desk
		}) => {
			const { page, day } = desk;
			await desk.open();
			const account = await desk.follow();
			await expect(account).toContainText('Written as to-dos');
			await expect(account).toContainText('every run · tests, doses');
			await expect(lineOf(account, 'sent', /Written: Q7: Test NH3, .* and \d+ more/)).toHaveCount(1);

			const phone = await desk.phone();
			await phone.sync();
			await phone.tick('Q7: Test NH3');
			phone.change('UID:settle/test/2@harbour', dueOn(day(2)));
			phone.change('UID:flukes/dose/2@harbour', dueOn(day(13)));
			// three weeks between two doses against flukes is no course
			phone.change('UID:flukes/dose/1@harbour', dueOn(day(40)));
			await phone.sync();
			await desk.sync(account);
			await expect(lineOf(account, 'received', /Q7: Test NH3: done there on .*, logged here/)).toHaveCount(1);
			await expect(lineOf(account, 'refused', /was moved to .* there and is put back/)).toHaveCount(1);
			// days as the reader writes them
			await expect(lineOf(account, 'asked', /was moved from \d+ \w+ at 08:00 to \d+ \w+ at/)).toHaveCount(2);
			await expect(account).not.toContainText(/\d{4}-\d{2}-\d{2}/);
			expect((await desk.run()).log).toMatchObject([{ kind: 'done', task: 'settle/test/1' }]);

			const waiting = page.getByRole('region', { name: 'Moved on a phone' });
			await expect(waiting.getByRole('button', { name: /^Accept/ })).toHaveCount(2);
			await stands(desk);
			await waiting.getByRole('button', { name: /^Accept: Q7: Praziquantel/ }).click();
			await expect(lineOf(account, 'received', /Praziquantel .* the move to .* was accepted/)).toHaveCount(1);
			await waiting.getByRole('button', { name: /^Refuse: Q7: Test NH3/ }).click();
			await expect(waiting).toHaveCount(0);
			await expect(lineOf(account, 'refused', /Test NH3: the move to .* was refused/)).toHaveCount(1);
			expect((await desk.run()).document.moves).toEqual({ 'flukes/dose/2': day(13) });

			await desk.sync(account);
			await phone.sync();
			expect(phone.read('UID:flukes/dose/2@harbour')).toContain(`DUE:${compact(day(13))}`);
			expect(phone.read('UID:settle/test/2@harbour')).toContain(`DUE:${compact(day(1))}`);
		});

		test('nothing is taken away, and nothing written back, in bulk without a yes', async ({ desk }) => {
			const { page } = desk;
			await desk.open();
			const account = await desk.follow();
			const phone = await desk.phone();
			await phone.sync();
			const all = phone.files().length;
			const phases = (await desk.run()).document.phases as { id: string }[];
			await desk.save(['phases'], phases, phases.slice(0, 1));
			await desk.sync(account);
			await expect(account).toContainText(`of the ${all} tasks on the server are no longer planned`);
			await stands(desk);
			await phone.sync();
			expect(phone.files()).toHaveLength(all);
			await account.getByRole('button', { name: /^Take \d+ away there$/ }).click();
			await expect(lineOf(account, 'sent', /Taken away, no longer planned/)).toHaveCount(1);
			await phone.sync();
			const left = phone.files().length;
			expect(left).toBeLessThan(all / 2);

			for (let n = left; n > 0; n--) phone.change('BEGIN:VTODO', () => null);
			await phone.sync();
			await desk.sync(account);
			await expect(account).toContainText(`${left} of the ${left} tasks were deleted on the server`);
			await page.reload();
			await page.locator('html[data-hydrated]').waitFor();
			await account.getByRole('button', { name: `Write ${left} again` }).click();
			await expect(account.getByText('deleted on the server. To leave it so')).toHaveCount(0);
			await phone.sync();
			expect(phone.files()).toHaveLength(left);
		});

		test('the server goes away in the middle: said on the page, finished at the next look', async ({
			desk
		}) => {
			let puts = 0;
			desk.between.meddle = ({ method }) => (method === 'PUT' && ++puts > 3 ? 0 : undefined);
			await desk.open();
			const account = await desk.follow();
			await expect(account.getByRole('alert')).toContainText(/^127\.0\.0\.1:\d+ cannot be reached/);
			await expect(lineOf(account, 'trouble', /cannot be reached/)).toHaveCount(1);
			await stands(desk);
			desk.between.meddle = () => undefined;
			await desk.sync(account);
			await expect(account.getByRole('alert')).toHaveCount(0);
			const written = desk.between.writes().filter((write) => write.startsWith('PUT'));
			await desk.sync(account);
			expect(desk.between.writes()).toEqual([]);
			expect(new Set(written).size).toBeGreaterThan(12);
		});
	});

test('a wrong password is said before an account is made, and where one changes later a new one is asked for', async ({
	desk
}) => {
	const { page } = desk;
	await desk.open();
	await desk.find('wrong');
	await expect(page.getByRole('alert')).toContainText('refuses this user or password');
	const account = await desk.follow();
	// what a server answers once its password was changed
	desk.between.meddle = ({ headers }) =>
		headers.authorization === `Basic ${btoa(`${login.user}:${login.password}`)}` ? 401 : undefined;
	await desk.sync(account);
	await expect(account.getByRole('alert')).toContainText('refuses this user or password');
	await expect(account).not.toContainText('Next by itself');
	await stands(desk);
	await account.getByLabel('Password').fill('wrong as well');
	await account.getByRole('button', { name: 'Try this password' }).click();
	await expect(account.getByRole('alert')).toContainText('refuses this user or password');
	desk.between.meddle = () => undefined;
	await account.getByLabel('Password').fill(login.password);
	await account.getByRole('button', { name: 'Try this password' }).click();
	await expect(account.getByRole('alert')).toHaveCount(0);
	await expect(account).toContainText('Next by itself');
	await account.getByRole('button', { name: 'Stop following in Quarantine' }).click();
	await expect(account).toHaveCount(0);
});

/** Makes a collection that holds only that component, as another program would. */
async function collectionFor({ server }: Desk, component: string): Promise<void> {
	const headers = {
		authorization: `Basic ${btoa(`${login.user}:${login.password}`)}`,
		'content-type': 'text/xml'
	};
	const made = await fetch(`${server}/${login.user}/${component.toLowerCase()}/`, {
		method: 'MKCALENDAR',
		headers,
		body: `<c:mkcalendar xmlns:d="DAV:" xmlns:c="urn:ietf:params:xml:ns:caldav"><d:set><d:prop><d:displayname>Only ${component}</d:displayname><c:supported-calendar-component-set><c:comp name="${component}"/></c:supported-calendar-component-set></d:prop></d:set></c:mkcalendar>`
	});
	expect(made.status).toBe(201);
}

test('a collection that takes no to-dos is offered for events, one that takes neither is not, and a refusal is told', async ({
	desk
}) => {
	const { page } = desk;
	await collectionFor(desk, 'VEVENT');
	await collectionFor(desk, 'VJOURNAL');
	await desk.open();
	await desk.find();
	await expect(page.getByRole('radio', { name: /^Only VJOURNAL/ })).toBeDisabled();
	await expect(page.getByText('takes neither to-dos nor events')).toBeVisible();
	await stands(desk);
	await page.getByRole('radio', { name: /^Only VEVENT takes events only/ }).check();
	await page.getByRole('button', { name: 'Follow the plans there' }).click();
	const events = page.getByRole('region', { name: /^Only VEVENT on / });
	await expect(events).toContainText('Written as events: they can be seen and moved there, not ticked.');
	const puts = desk.between.passed.filter(({ method }) => method === 'PUT');
	expect(puts.length).toBeGreaterThan(12);
	for (const { body, status } of puts) {
		expect(status).toBe(201);
		expect(body).toContain('BEGIN:VEVENT');
	}

	// a server that does not say so beforehand
	desk.between.meddle = ({ method }) => (method === 'PUT' ? 403 : undefined);
	const refused = await desk.follow();
	await expect(refused.getByRole('alert')).toContainText(
		/did not take .* \(it answered 403\): this calendar may take no to-dos/
	);
});
