import { createServer, request as ask, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { serve, type Server } from './program.ts';

/** Servers of two makes: what one of them forgives, the other may not. */
export const makes = ['radicale', 'xandikos'] as const;
export type Make = (typeof makes)[number];

export const login = { user: 'keeper', password: 'salt and water' };

/** Starts one with an empty store in the folder. Radicale asks for the password; xandikos has no doors. */
export function startServer(make: Make, folder: string): Promise<Server> {
	mkdirSync(join(folder, make), { recursive: true });
	if (make === 'xandikos')
		return serve('xandikos', (port) => [
			'--listen-address',
			'127.0.0.1',
			'--port',
			String(port),
			'-d',
			join(folder, make),
			'--current-user-principal',
			'/keeper/',
			'--autocreate',
			'--defaults'
		]);
	const users = join(folder, 'users');
	writeFileSync(users, `${login.user}:${login.password}\n`);
	return serve('radicale', (port) => [
		'--hosts',
		`127.0.0.1:${port}`,
		'--storage-filesystem-folder',
		join(folder, make),
		'--auth-type',
		'htpasswd',
		'--auth-htpasswd-filename',
		users,
		'--auth-htpasswd-encryption',
		'plain',
		'--auth-delay',
		'0'
	]);
}

/** A request as it went past. */
export interface Passed {
	method: string;
	path: string;
	headers: IncomingMessage['headers'];
	body: string;
	status: number;
}

type Meddled = number | { status: number; body: string } | undefined;

/** What stands between the app and the server: it writes down what passes, and can make trouble. */
export interface Between {
	url: string;
	passed: Passed[];
	/** a status to answer with instead of asking the server; 0: hang up; undefined: pass it on */
	meddle: (passed: Omit<Passed, 'status'>) => Meddled | Promise<Meddled>;
	/** the requests since the last call that change something */
	writes: () => string[];
	stop: () => Promise<void>;
}

const writing = new Set(['PUT', 'DELETE', 'MKCALENDAR', 'MKCOL', 'PROPPATCH', 'POST']);

export async function standBetween(server: string): Promise<Between> {
	const between: Between = {
		url: '',
		passed: [],
		meddle: () => undefined,
		writes: () =>
			between.passed
				.splice(0)
				.filter(({ method }) => writing.has(method))
				.map(({ method, path }) => `${method} ${path}`),
		stop: () => new Promise((resolve) => (proxy.closeAllConnections(), proxy.close(() => resolve())))
	};
	const proxy = createServer((incoming, answer) => {
		void bodyOf(incoming).then(async (body) => {
			const seen = {
				method: incoming.method ?? '',
				path: incoming.url ?? '',
				headers: incoming.headers,
				body: body.toString()
			};
			const meddled = await between.meddle(seen);
			if (meddled !== undefined) {
				const { status, body } = typeof meddled === 'number' ? { status: meddled, body: '' } : meddled;
				between.passed.push({ ...seen, status });
				if (status === 0) return incoming.socket.destroy();
				return answer.writeHead(status, { 'content-type': 'text/xml' }).end(body);
			}
			const onward = ask(
				new URL(seen.path, server),
				{ method: seen.method, headers: { ...seen.headers, connection: 'close' } },
				(response) => {
					between.passed.push({ ...seen, status: response.statusCode ?? 0 });
					answer.writeHead(response.statusCode ?? 502, response.headers);
					response.pipe(answer);
				}
			);
			onward.on('error', () => incoming.socket.destroy());
			onward.end(body);
			return undefined;
		});
	});
	await new Promise<void>((resolve) => proxy.listen(0, '127.0.0.1', resolve));
	between.url = `http://127.0.0.1:${(proxy.address() as AddressInfo).port}`;
	return between;
}

async function bodyOf(incoming: IncomingMessage): Promise<Buffer> {
	const chunks: Buffer[] = [];
	for await (const chunk of incoming) chunks.push(chunk as Buffer);
	return Buffer.concat(chunks);
}
