import type { Page } from '@playwright/test';
import { visit } from './app.ts';

/** Opens the invented run on the page of it that is named, and answers with the run's id. */
export async function openRun(page: Page, tab: string): Promise<string> {
	const answer = await page.request.post('/api/demo');
	const { run } = (await answer.json()) as { run: { id: string } };
	await visit(page, `/runs/${run.id}/${tab}`);
	return run.id;
}

/** The log of a run as the store has it. */
export const logOf = async (page: Page, run: string) => {
	const answer = await page.request.get(`/api/runs/${run}/log`);
	return ((await answer.json()) as { log: Record<string, unknown>[] }).log;
};
