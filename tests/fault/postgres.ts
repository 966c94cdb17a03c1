import pg from 'pg';

/** An empty database on the server `TEST_POSTGRES_URL`, whose data is in `TEST_POSTGRES_DIR`. Throws without them. */
export async function freshPostgres(): Promise<{ url: string; folder: string; drop: () => Promise<void> }> {
	const { TEST_POSTGRES_URL: server, TEST_POSTGRES_DIR: folder } = process.env;
	if (!server || !folder)
		throw new Error('TEST_POSTGRES_URL and TEST_POSTGRES_DIR: saw none; .ci/postgres start gives them');
	const name = `lazaret_fault_${process.pid}`;
	const run = async (sql: string) => {
		const client = new pg.Client({ connectionString: server });
		await client.connect();
		await client.query(sql);
		await client.end();
	};
	await run(`create database ${name}`);
	const url = new URL(server);
	url.pathname = `/${name}`;
	return { url: url.href, folder, drop: () => run(`drop database ${name} with (force)`) };
}
