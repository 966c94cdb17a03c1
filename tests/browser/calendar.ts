import type { Locator, Page } from '@playwright/test';

export const ready = (page: Page) => page.locator('html[data-hydrated]').waitFor();

/** The demo run, whose copper is held over today; gives the calendar. */
export async function openDemo(page: Page): Promise<Locator> {
	await page.goto('/');
	await ready(page);
	await page.getByRole('button', { name: 'Open the demo run' }).click();
	await page.waitForURL(/\/runs\/./);
	await ready(page);
	return page.getByRole('region', { name: 'Calendar' });
}

/** The day so many days from the one that is marked as today, `YYYY-MM-DD`. */
export async function dayFrom(calendar: Locator, days: number): Promise<string> {
	const today = await calendar.locator('[aria-current="date"]').getAttribute('data-date');
	return new Date(Date.parse(`${today}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

export const column = (calendar: Locator, day: string) => calendar.locator(`[data-day="${day}"]`).first();
export const taskOf = (calendar: Locator, id: string) => calendar.locator(`[data-tasks~="${id}"]`);

/** The first day after today, or after another, with a job of a kind, and the job's id. */
export async function nextJob(
	calendar: Locator,
	kind: string,
	after?: string
): Promise<{ day: string; id: string }> {
	const today = after ?? (await dayFrom(calendar, 0));
	const jobs = await calendar.locator('[data-tasks]').evaluateAll((chips) =>
		chips.map((chip) => ({
			day: chip.closest<HTMLElement>('[data-day]')?.dataset.day ?? '',
			id: (chip as HTMLElement).dataset.tasks?.split(' ')[0] ?? ''
		}))
	);
	const found = jobs.find(({ day, id }) => day > today && id.split('/')[1] === kind);
	if (!found) throw new Error(`no ${kind} after ${today}`);
	return found;
}

/** Presses one thing and lets go over another, by the mouse. */
export async function drag(page: Page, from: Locator, to: Locator, at?: { x: number; y: number }) {
	// both ends must be on the screen: a pointer beyond its edge stands on nothing
	await from.evaluate((element) => element.scrollIntoView({ block: 'center' }));
	const start = await from.boundingBox();
	const end = await to.boundingBox();
	if (!start || !end) throw new Error('nothing to drag');
	const grip = at ?? { x: Math.min(20, start.width / 2), y: start.height / 2 };
	await page.mouse.move(start.x + grip.x, start.y + grip.y);
	await page.mouse.down();
	await page.mouse.move(end.x + end.width / 2, end.y + Math.min(30, end.height / 2), { steps: 8 });
	await page.mouse.up();
}
