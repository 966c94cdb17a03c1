import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { dataFolder, isLoopback, listenAddress } from './place.ts';

describe('the data folder', () => {
	test('is LAZARET_DATA where that is set', () => {
		expect(dataFolder({ LAZARET_DATA: '/srv/fish', XDG_DATA_HOME: '/x' }, 'linux')).toBe('/srv/fish');
	});
	// XDG Base Directory Specification 0.8: default $HOME/.local/share, relative paths are ignored
	test.each([
		[{}, join(homedir(), '.local/share/lazaret')],
		[{ XDG_DATA_HOME: '/var/data' }, '/var/data/lazaret'],
		[{ XDG_DATA_HOME: 'data' }, join(homedir(), '.local/share/lazaret')]
	])('on Linux with %j is %s', (env, folder) => expect(dataFolder(env, 'linux')).toBe(folder));
	test('on macOS is in Application Support', () => {
		expect(dataFolder({}, 'darwin')).toBe(join(homedir(), 'Library/Application Support/Lazaret'));
	});
});

describe('the address', () => {
	test('is the loopback by default', () => {
		expect(listenAddress({})).toEqual({ host: '127.0.0.1', port: 4173 });
	});
	test.each(['0.0.0.0', '::', '192.168.1.5', '10.0.0.1', 'shop.example', '127.example', '127.0.0.1.example'])(
		'refuses %s without a passphrase',
		(HOST) => expect(listenAddress({ HOST })).toHaveProperty('refused')
	);
	test.each(['localhost', '127.0.0.1', '127.8.9.1', '::1', '[::1]', 'LOCALHOST'])('takes %s', (host) =>
		expect(isLoopback(host)).toBe(true)
	);
	test.each(['abc', '-1', '65536', '80.5', '1e9'])('refuses port %s', (PORT) =>
		expect(listenAddress({ PORT })).toHaveProperty('refused')
	);
});
