import { rmSync } from 'node:fs';
import { expect } from '@playwright/test';
import { login, startServer } from '../clients/calendar-server.ts';
import { folder } from '../clients/program.ts';
import { isoDay } from './dates.ts';
import { linesOf } from './lines.ts';
import { proposalPart } from './paper-proposal.ts';
import { faultsOf } from './sweep.ts';
import type { Walk } from './walk.ts';

const authorization = `Basic ${btoa(`${login.user}:${login.password}`)}`;
const region = 'section[aria-labelledby="proposals"]';

/** What a phone does to the entry of one job: it reads it, writes another day into it, and puts it back. */
async function move(calendar: URL, uid: string, day: number): Promise<void> {
	const listed = await fetch(calendar, { method: 'PROPFIND', headers: { authorization, depth: '1' } });
	const hrefs = [...(await listed.text()).matchAll(/<(?:\w+:)?href>([^<]*\.ics)</g)].map(
		([, href = '']) => href
	);
	for (const href of hrefs) {
		const at = new URL(href, calendar);
		const text = await (await fetch(at, { headers: { authorization } })).text();
		if (!text.includes(`UID:${uid}@`)) continue;
		const body = text.replace(/^(DUE[^:]*:)\d{8}/m, `$1${isoDay(day).replaceAll('-', '')}`);
		expect(body).not.toBe(text);
		const headers = { authorization, 'content-type': 'text/calendar; charset=utf-8' };
		expect((await fetch(at, { method: 'PUT', headers, body })).ok).toBe(true);
		return;
	}
	throw new Error(`no entry of ${uid} on the server among ${hrefs.length} of ${calendar.href}`);
}

/**
 * The run is followed on a calendar server, the second dose against flukes is moved there by a day, and comes back as a
 * question: from which day to which, its hour, and what it moves. It is refused, so that the days go on as planned.
 */
export async function phoneSays(walk: Walk): Promise<void> {
	const { keeper } = walk;
	const { page } = keeper;
	const { today, rows } = walk.outlook();
	const place = folder();
	const server = await startServer('radicale', place.path);
	try {
		await keeper.open(today, '18:30', '/calendars');
		await page.getByText('Follow the plans on a server').click();
		await page.getByLabel('Address of the server').fill(server.url);
		await page.getByLabel('User').fill(login.user);
		await page.getByLabel(/^Password/).fill(login.password);
		await page.getByRole('button', { name: 'Find calendars' }).click();
		await page.getByLabel('Name of the new calendar').fill('Phone');
		await page.getByRole('button', { name: 'Follow the plans there' }).click();
		const account = page.getByRole('region', { name: /^Phone on / });
		await account.waitFor();
		const home = new URL(`/${login.user}/`, server.url);
		const made = await fetch(home, { method: 'PROPFIND', headers: { authorization, depth: '1' } });
		const [, href = ''] =
			[...(await made.text()).matchAll(/<(?:\w+:)?href>([^<]*)</g)].find(
				([, one = '']) => one.startsWith(home.pathname) && one !== home.pathname
			) ?? [];
		const [, due] = rows.flukes;
		await move(new URL(href, home), 'flukes/dose/2', due + 1);
		await account.getByRole('button', { name: 'Sync now' }).click();
		await page.getByRole('heading', { name: 'Moved on a phone' }).waitFor();
		const part = proposalPart(region, due, due + 1);
		const seen = async () =>
			(await linesOf(page, [region])).filter(({ parts: [within = -1] }) => within >= 0);
		await expect
			.configure({ soft: true })
			.poll(async () => faultsOf(await seen(), [part]), { message: 'moved on a phone', timeout: 8_000 })
			.toEqual([]);
		await page.getByRole('button', { name: /^Refuse: / }).click();
		await expect(page.getByRole('heading', { name: 'Moved on a phone' })).toHaveCount(0);
		await account.getByRole('button', { name: 'Stop following in Phone' }).click();
		await expect(account).toHaveCount(0);
	} finally {
		await server.stop();
		rmSync(place.path, { recursive: true, force: true });
	}
}
