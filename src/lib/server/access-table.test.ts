import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { expect, test } from 'vitest';
import { accessTable, deedFor, leastFor, mayDo } from './access-table.ts';

const routes = join(import.meta.dirname, '../../routes');
const methods = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];

/** Every route and method the code answers, as Kit finds them: by the names of files and what they export. */
function written(): string[] {
	const files = readdirSync(routes, { recursive: true, encoding: 'utf8' });
	return files.flatMap((file) => {
		const route = `/${relative('.', dirname(file)).split(sep).join('/')}`.replace(/\([^)]*\)\/?/g, '');
		const id = route === '/.' || route === '/' ? '/' : route;
		if (file.endsWith('+page.svelte')) return [`GET ${id}`];
		const code = () => readFileSync(join(routes, file), 'utf8');
		if (/\+page\.server\.(ts|js)$/.test(file))
			return /export const actions\b/.test(code()) ? [`POST ${id}`] : [];
		if (!/\+server\.(ts|js)$/.test(file)) return [];
		return methods
			.filter((method) => new RegExp(`export (const|(async )?function) ${method}\\b`).test(code()))
			.map((method) => `${method} ${id}`);
	});
}

const rows = Object.entries(accessTable).flatMap(([id, row]) =>
	Object.entries(row).map(([method, cell]) => ({ id, method, cell, name: `${method} ${id}` }))
);

test('every route and method has its row, and no row is of a route that is gone', () => {
	const found = written();
	expect(found.length).toBeGreaterThan(20);
	expect(rows.map(({ name }) => name).toSorted()).toEqual([...new Set(found)].toSorted());
});

test('nothing is rendered ahead: such a page would be served before anybody is asked who they are', () => {
	const pages = readdirSync(routes, { recursive: true, encoding: 'utf8' }).filter((file) =>
		/\.(ts|js)$/.test(file)
	);
	const ahead = pages.filter((file) => /\bprerender\b/.test(readFileSync(join(routes, file), 'utf8')));
	expect(ahead).toEqual([]);
});

test('every write says how the audit calls it', () => {
	const mute = rows.filter(({ method, cell }) => method !== 'GET' && typeof cell[1] !== 'string');
	expect(mute.map(({ name }) => name)).toEqual([]);
	expect(deedFor('/api/runs', 'POST')).toBe('made a run');
});

test('only the door and the calendars are open, and whoever may only look writes nothing but their own passphrase', () => {
	const of = (least: string) => rows.filter(({ cell }) => cell[0] === least);
	expect(of('open').map(({ name }) => name)).toEqual(['GET /feed/[secret].ics', 'GET /enter', 'POST /enter']);
	expect(
		of('viewer')
			.filter(({ method }) => method !== 'GET')
			.map(({ name }) => name)
	).toEqual(['POST /people/me']);
});

test('what is not in the table is refused to all but a keeper', () => {
	expect(leastFor('/nowhere/[id]', 'GET')).toBe('keeper');
	expect(leastFor('/runs', 'DELETE')).toBe('keeper');
	expect(leastFor('toString', 'GET')).toBe('keeper');
	expect(leastFor(null, 'GET')).toBe('viewer');
	expect(leastFor('/runs', 'HEAD')).toBe('viewer');
});

test.each([
	[null, [true, false, false, false]],
	['viewer', [true, true, false, false]],
	['helper', [true, true, true, false]],
	['keeper', [true, true, true, true]]
] as const)('%s may what asks for at most that', (role, expected) => {
	expect((['open', 'viewer', 'helper', 'keeper'] as const).map((least) => mayDo(role, least))).toEqual(
		expected
	);
});
