import AxeBuilder from '@axe-core/playwright';
import { startApp } from '../built-app.ts';
import { expect, test, visit } from './app.ts';
import { copperRun, newEntries } from './day-run.ts';

test.use({ viewport: { width: 390, height: 844 } });

/** One red dot. */
const dot =
	'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
const picture = { name: 'fish.png', mimeType: 'image/png', buffer: Buffer.from(dot, 'base64') };

test('a look takes a picture along, kept without network through a reload and sent once before its entry', async ({
	page,
	context,
	request,
	app
}) => {
	await copperRun(request, 'q2');
	await visit(page, '/today');
	await page.locator('html[data-kept]').waitFor();
	await expect
		.poll(() => page.evaluate(async () => Boolean(await (await caches.open('lazaret-kept')).match('/today'))))
		.toBe(true);
	await context.setOffline(true);
	await page.getByRole('button', { name: /^Log a look/ }).click();
	const sheet = page.getByRole('dialog');
	await sheet.getByLabel('Photo, optional').setInputFiles(picture);
	await expect(sheet.getByAltText('Taken with this look')).toBeVisible();
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 160)])).toEqual([]);
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
	await sheet.getByRole('button', { name: 'No signs' }).click();
	await expect(page.getByText('1 entry waits to be sent.')).toBeVisible();
	await app.stop();
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await expect(page.getByText('1 entry waits to be sent.')).toBeVisible();

	const sent: string[] = [];
	page.on('request', (one) => one.method() !== 'GET' && sent.push(new URL(one.url()).pathname));
	const again = await startApp(app.folder, { PORT: new URL(app.url).port });
	try {
		await context.setOffline(false);
		await expect.poll(async () => (await newEntries(request, 'q2')).length).toBe(1);
		const [look] = await newEntries(request, 'q2');
		expect(look).toMatchObject({ kind: 'observation', signs: ['none'] });
		const stored = await request.get(`/api/photos/${String(look?.photo)}`);
		expect([stored.status(), stored.headers()['content-type']]).toEqual([200, 'image/jpeg']);
		await expect(page.getByText(/entry waits to be sent/)).toHaveCount(0);
		const arrived = sent.filter((path) => path.startsWith('/api/photos/')).length;
		expect(arrived).toBeGreaterThan(0);
		// nothing of it is left on the device
		const left = await page.evaluate(
			() =>
				new Promise((done) => {
					const opening = indexedDB.open('lazaret-photos', 1);
					opening.onsuccess = () => {
						const asked = opening.result.transaction('photo').objectStore('photo').count();
						asked.onsuccess = () => done(asked.result);
					};
				})
		);
		expect(left).toBe(0);
	} finally {
		await again.stop();
	}
});
