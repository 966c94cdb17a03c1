import { randomUUID } from 'node:crypto';
import type { Locator, Page } from '@playwright/test';
import { expect, visit } from './app.ts';

const keys = ['kind', 'medicine', 'starts', 'lasts', 'level', 'repeat', 'change', 'test'] as const;
const computed = ['from', 'to', 'tasks', 'mark'] as const;

export type Column = (typeof keys)[number] | (typeof computed)[number];

const columnOf = (column: Column) => [...keys, ...computed].indexOf(column);

/** A run of five rows, far enough ahead that the clock changes nothing in it. */
export const fiveRows = {
	format: 'lazaret-plan/1',
	name: 'Pier tangs',
	timeZone: 'America/Chicago',
	service: '08:00',
	tank: { name: 'T', net: '200 L', temperature: '25 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	lots: [
		{
			id: 'a',
			what: 'surgeonfish',
			group: 'tang',
			count: 2,
			mass: '80 g',
			feed: '1 g/d',
			arrived: '2031-03-03'
		}
	],
	medicines: [{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' }],
	phases: [
		{
			id: 'settle',
			kind: 'settle',
			starts: 'on 2031-03-03',
			lasts: '3 d',
			change: 'auto',
			test: 'NH3 daily'
		},
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '28 d',
			level: '0.15-0.20 mg/L',
			repeat: 'ramp 3 d',
			change: 'auto',
			test: 'Cu daily, NH3 daily'
		},
		{
			id: 'wash',
			kind: 'washout',
			medicine: 'cu',
			starts: 'after copper',
			lasts: 'until clear',
			level: '0.02 mg/L',
			change: '50% daily',
			carbon: true,
			test: 'Cu daily'
		},
		{
			id: 'watch',
			kind: 'observe',
			starts: 'after wash',
			lasts: '14 d',
			change: 'auto',
			test: 'NH3 every 2 d'
		},
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};

/** The sheet of one run as a keeper at the desk sees and works it. Rows count from 1, as shown. */
export class SheetPage {
	readonly page: Page;
	readonly grid: Locator;

	constructor(page: Page) {
		this.page = page;
		this.grid = page.getByRole('grid', { name: 'Phases' });
	}

	/** Stores a run and opens it, ready to be typed into. */
	static async open(page: Page, document: object = fiveRows): Promise<SheetPage> {
		const id = `run-${randomUUID().slice(0, 8)}`;
		const made = await page.request.post('/api/runs', { data: { id, document } });
		expect(made.status()).toBe(201);
		await visit(page, `/runs/${id}`);
		return new SheetPage(page);
	}

	async reload() {
		await this.page.reload();
		await this.page.locator('html[data-hydrated]').waitFor();
	}

	cell(row: number, column: Column): Locator {
		return this.page.locator(`[data-row="${row - 1}"][data-column="${columnOf(column)}"]`);
	}

	head(row: number): Locator {
		return this.grid.locator('tbody th').nth(row - 1);
	}

	columnHead(column: Column): Locator {
		return this.grid.locator('thead th').nth(columnOf(column) + 1);
	}

	press(...pressed: string[]): Promise<void> {
		return pressed.reduce(
			(before, key) => before.then(() => this.page.keyboard.press(key)),
			Promise.resolve()
		);
	}

	async type(text: string) {
		await this.page.keyboard.type(text);
	}

	/** Goes to a cell, types and presses Enter. */
	async put(row: number, column: Column, text: string) {
		await this.cell(row, column).click();
		await this.type(text);
		await this.press('Enter');
	}

	/** The cell shows this text. */
	async shows(row: number, column: Column, text: string | RegExp) {
		await expect(this.cell(row, column).locator('.text')).toHaveText(text);
	}

	/** The keyboard's place is that cell, with the focus in it. */
	async isAt(row: number, column: Column) {
		const cell = this.cell(row, column);
		await expect(cell).toHaveClass(/(^| )active( |$)/);
		await expect
			.poll(() => cell.evaluate((node) => node.contains(document.activeElement)), `focus in ${row} ${column}`)
			.toBe(true);
	}

	/** How many cells are selected. */
	async selects(count: number) {
		await expect(this.grid.locator('td[aria-selected="true"]')).toHaveCount(count);
	}

	async hasRows(count: number) {
		await expect(this.grid.locator('tbody tr:not(.fresh)')).toHaveCount(count);
	}

	async saved() {
		await expect(this.page.getByText('Saved', { exact: true })).toBeVisible();
	}
}
