/**
 * The entry `npm start` runs: listens where the environment says, tells the app the truth about the protocol, and
 * turns trouble at start into one sentence.
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { pathToFileURL } from 'node:url';
import { networkInterfaces } from 'node:os';
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
process.env.BODY_SIZE_LIMIT ??= '200M';

const app = pathToFileURL(join(import.meta.dirname, '../app/handler.js')).href;
const { handler } = (await import(/* @vite-ignore */ app).catch((error: unknown) =>
	stop(sentence(error))
)) as {
	handler: Handler;
};

/** Only a proxy that is trusted may say what the visitor spoke and where they came from. */
function straighten({ headers, socket }: IncomingMessage): void {
	const spoken = String(headers['x-forwarded-proto'] ?? '')
		.split(',')[0]
		?.trim();
	headers['x-forwarded-proto'] = behindProxy && spoken === 'https' ? 'https' : 'http';
	if (behindProxy) headers['x-forwarded-for'] ??= socket.remoteAddress;
}

const server = createServer((request, response) => {
	straighten(request);
	handler(request, response, () => {
		response.statusCode = 404;
		response.end('Not found');
	});
});

// longer than browsers and proxies keep an idle connection: a request must not meet one that is just being closed
server.keepAliveTimeout = 75_000;

server.on('error', (error: NodeJS.ErrnoException) => {
	if (error.code === 'EADDRINUSE') {
		stop(`port ${address.port} is taken: stop what listens there, or set PORT to another`);
	}
	if (error.code === 'EADDRNOTAVAIL' || error.code === 'ENOTFOUND' || error.code === 'EAI_AGAIN') {
		stop(`HOST: saw ${address.host}, expected an address of this machine`);
	}
	if (error.code === 'EACCES')
		stop(`PORT: saw ${address.port}, expected one this user may listen on, above 1023`);
	stop(sentence(error));
});

/** Every address it answers at: for one that stands for all, the machine's own. */
function addressesOf(host: string): string[] {
	if (host !== '0.0.0.0' && host !== '::') return [host];
	const all = Object.values(networkInterfaces()).flatMap((own) => own ?? []);
	const others = all
		.filter(({ internal, family }) => !internal && family === 'IPv4')
		.map((own) => own.address);
	return ['127.0.0.1', ...others];
}

server.listen(address.port, address.host, () => {
	const bound = server.address();
	const port = bound !== null && typeof bound === 'object' ? bound.port : address.port;
	const urls = addressesOf(address.host).map(
		(host) => `http://${host.includes(':') ? `[${host}]` : host}:${port}`
	);
	console.log(`Lazaret is ready on ${urls.join(' and ')}`);
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
