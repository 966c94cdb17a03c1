import { expect, test } from './app.ts';

const scope = { kinds: ['test'] };

test('a feed follows its run over the wire and answers 304, 404 and nothing else', async ({ request }) => {
	await request.post('/api/demo');
	const made = (await (await request.post('/api/feeds', { data: { name: 'Tests', scope } })).json()) as {
		id: string;
		secret: string;
	};
	const address = `/feed/${made.secret}.ics`;
	const first = await request.get(address);
	expect(first.status()).toBe(200);
	expect(first.headers()).toMatchObject({
		'content-type': 'text/calendar; charset=utf-8',
		'x-robots-tag': 'noindex'
	});
	const text = await first.text();
	expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
	expect(text).toContain('CATEGORIES:test\r\n');
	expect(text).not.toContain('CATEGORIES:dose');
	const again = await request.get(address, { headers: { 'if-none-match': first.headers().etag ?? '' } });
	expect(again.status()).toBe(304);
	const other = await request.get('/feed/nothing.ics');
	expect(other.status()).toBe(404);
	expect(other.headers()['content-type']).toMatch(/^text\/plain/);
	const renewed = (await (await request.post(`/api/feeds/${made.id}`)).json()) as { secret: string };
	expect((await request.get(address)).status()).toBe(404);
	expect((await request.get(`/feed/${renewed.secret}.ics`)).status()).toBe(200);
	expect((await request.delete(`/api/feeds/${made.id}`)).status()).toBe(200);
	expect((await request.get(`/feed/${renewed.secret}.ics`)).status()).toBe(404);
});

test('a feed that is asked for wrongly is refused in one sentence', async ({ request }) => {
	for (const data of [
		{},
		{ name: '', scope },
		{ name: 'x', scope: { kinds: ['party'] } },
		{ name: 'x', scope: {}, more: 1 }
	]) {
		const answer = await request.post('/api/feeds', { data });
		expect(answer.status()).toBe(422);
		expect(typeof ((await answer.json()) as { error: { message: unknown } }).error.message).toBe('string');
	}
	expect((await request.delete('/api/feeds/none')).status()).toBe(404);
});

test('an address is made on the page, shown once, and ended', async ({ page }) => {
	await page.goto('/calendars');
	await page.waitForSelector('html[data-hydrated]');
	await page.getByText('Make a subscription').click();
	await page.getByLabel('Name', { exact: true }).fill('Harbour doses');
	await page.getByRole('button', { name: 'Make the address' }).click();
	const address = page.getByLabel('To paste');
	await expect(address).toHaveValue(/\/feed\/[\w-]{27}\.ics$/);
	await expect(page.getByRole('link', { name: 'Open in a calendar program' })).toHaveAttribute(
		'href',
		/^webcal:/
	);
	const value = await address.inputValue();
	await page.reload();
	await expect(page.getByText('Harbour doses')).toBeVisible();
	await expect(page.getByLabel('To paste')).toHaveCount(0);
	expect((await page.request.get(value)).status()).toBe(200);
	await page.waitForSelector('html[data-hydrated]');
	await page.getByRole('button', { name: 'End Harbour doses' }).click();
	await expect(page.getByRole('region', { name: 'Subscriptions' }).getByText('None yet.')).toBeVisible();
	expect((await page.request.get(value)).status()).toBe(404);
});
