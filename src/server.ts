/**
 * The entry `npm start` runs: listens on this machine only, tells the app the truth about the protocol, and
 * turns trouble at start into one sentence.
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import { dataFolder, listenAddress, makeDataFolder } from './lib/server/place.ts';

type Handler = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

function stop(sentence: string): never {
	process.stderr.write(`lazaret: ${sentence}\n`);
	process.exit(2);
}

const sentence = (error: unknown) =>
	(error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';

const address = listenAddress(process.env);
if ('refused' in address) stop(address.refused);
const folder = dataFolder(process.env);
try {
	makeDataFolder(folder);
} catch (error) {
	stop(sentence(error));
}

const behindProxy = process.env.TRUST_PROXY === '1';
// the adapter takes a request for https unless a header says otherwise, and then refuses its own forms
process.env.PROTOCOL_HEADER = 'x-forwarded-proto';
if (behindProxy) process.env.ADDRESS_HEADER ??= 'x-forwarded-for';
// an import of everything is the largest thing anybody may send; each route has its own, smaller limit
process.env.BODY_SIZE_LIMIT ??= '32M';

const app = pathToFileURL(join(import.meta.dirname, '../app/handler.js')).href;
const { handler } = (await import(/* @vite-ignore */ app).catch((error: unknown) =>
	stop(sentence(error))
)) as {
	handler: Handler;
};

const server = createServer((request, response) => {
	if (!behindProxy || !request.headers['x-forwarded-proto']) request.headers['x-forwarded-proto'] = 'http';
	handler(request, response, () => {
		response.statusCode = 404;
		response.end('Not found');
	});
});

server.on('error', (error: NodeJS.ErrnoException) => {
	if (error.code === 'EADDRINUSE') {
		stop(`port ${address.port} is taken: stop what listens there, or set PORT to another`);
	}
	stop(sentence(error));
});

server.listen(address.port, address.host, () => {
	const bound = server.address();
	const port = bound !== null && typeof bound === 'object' ? bound.port : address.port;
	const host = address.host.includes(':') ? `[${address.host.replace(/[[\]]/g, '')}]` : address.host;
	console.log(`Lazaret is ready on http://${host}:${port}`);
	console.log(process.env.DATABASE_URL ? 'Data: the database of DATABASE_URL' : `Data: ${folder}`);
});

let stopping = false;
function shutDown(signal: string): void {
	if (stopping) return;
	stopping = true;
	setTimeout(() => server.closeAllConnections(), 3000).unref();
	server.close(() => {
		// what the app holds open (the store) closes on this event; the process then ends by itself
		process.emit('sveltekit:shutdown' as 'exit', signal as unknown as number);
		setTimeout(() => process.exit(0), 2000).unref();
	});
	server.closeIdleConnections();
}
process.on('SIGTERM', shutDown);
process.on('SIGINT', shutDown);
