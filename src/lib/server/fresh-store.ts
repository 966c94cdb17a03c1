import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { onTestFinished } from 'vitest';
import { openStore, type Store } from './store.ts';

const postgres = process.env.TEST_POSTGRES_URL;

/** The engines a test runs on: PostgreSQL where `TEST_POSTGRES_URL` names a server that may make databases. */
export const engines: Store['engine'][] = postgres ? ['sqlite', 'postgres'] : ['sqlite'];

/** An empty store of its own for one test, gone after it. Its clock ticks a second at each look. */
export async function freshStore(engine: Store['engine']): Promise<Store> {
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-store-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	let seconds = Date.parse('2026-11-27T00:00:00Z') / 1000;
	const now = () => new Date(seconds++ * 1000).toISOString();
	const databaseUrl = engine === 'postgres' ? await freshDatabase() : undefined;
	const store = await openStore({ folder, now, databaseUrl });
	onTestFinished(() => store.close());
	return store;
}

/** The address of an empty PostgreSQL database, dropped after the test. */
export async function freshDatabase(): Promise<string> {
	const name = `lazaret_${randomUUID().replaceAll('-', '')}`;
	const admin = new pg.Client({ connectionString: postgres });
	await admin.connect();
	await admin.query(`create database ${name}`);
	onTestFinished(async () => {
		await admin.query(`drop database ${name} with (force)`);
		await admin.end();
	});
	const url = new URL(postgres ?? '');
	url.pathname = `/${name}`;
	return url.href;
}
