import { rmSync } from 'node:fs';
import { test as base, type Locator, type Page } from '@playwright/test';
import { Temporal } from 'temporal-polyfill';
import { startApp } from '../built-app.ts';
import { login, standBetween, startServer, type Between, type Make } from './calendar-server.ts';
import { harbourFrom, zone } from './harbour-run.ts';
import { phoneOn, type Phone } from './phone.ts';
import { folder } from './program.ts';

export { expect } from '@playwright/test';

/** A keeper at the page of calendars, with a run stored, a calendar server of a make, and what stands between. */
export interface Desk {
	page: Page;
	between: Between;
	/** the server itself, past what stands between */
	server: string;
	/** where the server keeps its things */
	folder: string;
	/** the n-th day of the run, 0 today */
	day: (n: number) => string;
	open: () => Promise<void>;
	/** types address, user and password and asks for the calendars there */
	find: (password?: string) => Promise<void>;
	/** finds the server and has the doses and tests written into a new calendar */
	follow: () => Promise<Locator>;
	/** presses "Sync now" of an account and waits for its end */
	sync: (account: Locator) => Promise<void>;
	/** a phone on the one collection the app has made */
	phone: () => Promise<Phone>;
	save: (path: (string | number)[], was: unknown, to: unknown) => Promise<void>;
	run: () => Promise<{ document: Record<string, unknown>; log: Record<string, unknown>[] }>;
}

const runId = 'harbour';
const json = { 'content-type': 'application/json' };

export const test = base.extend<{ make: Make; desk: Desk }>({
	make: ['radicale', { option: true }],
	desk: async ({ make, page }, use) => {
		const place = folder();
		const server = await startServer(make, place.path);
		const between = await standBetween(server.url);
		const app = await startApp();
		const today = Temporal.Now.zonedDateTimeISO(zone).toPlainDate();
		const day = (n: number) => today.add({ days: n }).toString();
		const ask = async (path: string, method: string, body?: object) => {
			const answer = await fetch(`${app.url}/api${path}`, {
				method,
				headers: json,
				body: JSON.stringify(body)
			});
			if (!answer.ok) throw new Error(await answer.text());
			return (await answer.json()) as Record<string, unknown>;
		};
		await ask('/runs', 'POST', { id: runId, document: harbourFrom(day(0)) });
		const desk = deskAt({ page, between, server: server.url, folder: place.path, day });
		await use({
			...desk,
			open: async () => {
				await page.goto(`${app.url}/calendars`);
				await page.locator('html[data-hydrated]').waitFor();
			},
			save: async (path, was, to) => {
				const { run } = (await ask(`/runs/${runId}`, 'GET')) as { run: { version: number } };
				const id = `edit-${run.version}`;
				await ask(`/runs/${runId}/edits`, 'POST', { id, base: run.version, edits: [{ path, was, to }] });
			},
			run: async () => {
				const { run, log } = await ask(`/runs/${runId}`, 'GET');
				return { document: (run as { document: Record<string, unknown> }).document, log: log as [] };
			}
		});
		await app.stop();
		await between.stop();
		await server.stop();
		rmSync(app.folder, { recursive: true, force: true });
		place.remove();
	}
});

type Parts = Pick<Desk, 'page' | 'between' | 'server' | 'folder' | 'day'>;

function deskAt(parts: Parts): Omit<Desk, 'open' | 'save' | 'run'> {
	const { page, between } = parts;
	const find = async (password = login.password) => {
		const form = page.locator('details', { hasText: 'Follow the plans on a server' });
		if (!(await form.getAttribute('open').then((open) => open !== null)))
			await form.getByText('Follow the plans on a server').click();
		await page.getByLabel('Address of the server').fill(between.url);
		await page.getByLabel('User').fill(login.user);
		await page.getByLabel(/^Password/).fill(password);
		await page.getByRole('button', { name: 'Find calendars' }).click();
	};
	return {
		...parts,
		find,
		follow: async () => {
			await find();
			const form = page.getByRole('group', { name: 'Kinds of task' }).last();
			await page.getByLabel('Name of the new calendar').fill('Quarantine');
			for (const kind of await form.getByRole('checkbox').all())
				await kind.setChecked(['dose', 'test'].includes((await kind.getAttribute('value')) ?? ''));
			await page.getByRole('button', { name: 'Follow the plans there' }).click();
			const account = page.getByRole('region', { name: /^Quarantine on / });
			await account.waitFor();
			return account;
		},
		sync: async (account) => {
			const answered = page.waitForResponse(/\/api\/calendars\/accounts\//);
			await account.getByRole('button', { name: 'Sync now' }).click();
			await answered;
			await account.getByRole('button', { name: 'Sync now', disabled: false }).waitFor();
		},
		phone: async () => {
			const made = between.passed.find(({ method }) => method === 'MKCALENDAR');
			if (!made) throw new Error('the app has made no calendar');
			return phoneOn(new URL(made.path, parts.server).href, parts.folder);
		}
	};
}
