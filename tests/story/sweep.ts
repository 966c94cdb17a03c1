import { expect, type Page } from '@playwright/test';
import { linesOf, type Line } from './lines.ts';
import type { Said } from './says.ts';

/** A part of a screen, and every line with a figure that it has to say, no more and no less. */
export interface Part {
	/** selector of the part; a line belongs to the first part in the list that holds it */
	where: string;
	says: readonly Said[];
}

/** What is wrong with a screen: figures nobody expected, and expected ones that are not there. */
export function faultsOf(lines: readonly Line[], parts: readonly Part[]): string[] {
	const met = new Set<Said>();
	const faults: string[] = [];
	for (const { text, place, parts: within } of lines) {
		const part = parts[within.findIndex((n) => n >= 0)];
		const fitting = part?.says.filter((said) => said.fits(text)) ?? [];
		for (const said of fitting) met.add(said);
		if (fitting.length === 0) faults.push(`nobody expects "${text}" in ${place}`);
	}
	for (const { where, says } of parts)
		for (const said of says)
			if (!said.maybe && !met.has(said)) faults.push(`"${said.text}" is not seen in ${where}`);
	return faults;
}

/**
 * Every line of the open page that holds a figure, read or heard, is held against paper: whole, and in its part. It
 * waits until the page says what it should, and goes on after a fault, so that a run of the story names them all.
 */
export async function sweep(page: Page, screen: string, parts: readonly Part[]): Promise<void> {
	const selectors = parts.map(({ where }) => where);
	await expect
		.configure({ soft: true })
		.poll(async () => faultsOf(await linesOf(page, selectors), parts), { message: screen, timeout: 8_000 })
		.toEqual([]);
}
