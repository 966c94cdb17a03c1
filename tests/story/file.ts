import { expect } from '@playwright/test';
import { dated } from './dates.ts';
import { fileLines, fileParts } from './paper-file.ts';
import { faultsOf } from './sweep.ts';
import type { Walk } from './walk.ts';

/** What a calendar program gets that follows the run, and what is saved as a file, on the evening of the open day: all from a day on. */
export async function fileSays(walk: Walk, run: string, since = 0): Promise<void> {
	const { request } = walk.keeper.page;
	const { origin } = new URL(walk.keeper.page.url());
	const made = await request.post(`${origin}/api/feeds`, {
		data: { name: 'Banded cardinalfish, Bay 4', scope: { run } }
	});
	const { secret } = (await made.json()) as { secret: string };
	const outlook = walk.outlook();
	const parts = fileParts(outlook, since);
	const keys = parts.map(({ where }) => where);
	for (const path of [`/feed/${secret}.ics`, `/api/runs/${run}/export?as=ics`]) {
		const answer = await request.get(`${origin}${path}`);
		const lines = fileLines(await answer.text(), keys, since);
		// an address keeps its secret
		expect.soft(faultsOf(lines, parts), `${path.replace(secret, '…')}, ${dated(outlook.today)}`).toEqual([]);
	}
}
