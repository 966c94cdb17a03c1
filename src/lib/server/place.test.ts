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
	test.each(['0.0.0.0', '::', '[::]', '192.168.1.5', 'shop.example'])('may be %s', (HOST) =>
		expect(listenAddress({ HOST })).toEqual({ host: HOST.replace(/[[\]]/g, ''), port: 4173 })
	);
	test.each(['127.example', '127.0.0.1.example', '0.0.0.0', '::', '10.0.0.1'])(
		'%s is not the loopback',
		(host) => expect(isLoopback(host)).toBe(false)
	);
	test.each(['localhost', '127.0.0.1', '127.8.9.1', '::1', '[::1]', 'LOCALHOST'])('takes %s', (host) =>
		expect(isLoopback(host)).toBe(true)
	);
	test.each([
		...['abc', '-1', '65536', '80.5', '1e9', '0x50', ' 80', '8 0', '٤١٧٣'].map((value) => ['PORT', value]),
		...['not a host', 'http://x', '-x', 'a..b', '1.2.3.4:80', 'x'.repeat(300)].map((value) => [
			'HOST',
			value
		]),
		...['http://shop.example', 'shop.example:80', 'a b', 'ok.example,*'].map((value) => [
			'LAZARET_HOSTS',
			value
		]),
		...['many', '-1', '1.5', '99999', '14 '].map((value) => ['LAZARET_BACKUPS', value]),
		...['yes', 'true', '2'].map((value) => ['TRUST_PROXY', value])
	])('%s=%j is refused by name, in one line', (name = '', value = '') => {
		const { refused } = listenAddress({ [name]: value }) as { refused: string };
		expect(refused).toMatch(new RegExp(`^${name}: saw .*, expected .*$`));
		expect(refused.length).toBeLessThan(220);
	});
	test('an empty variable counts as none', () => {
		const empty = { PORT: '', HOST: '', LAZARET_HOSTS: '', LAZARET_BACKUPS: '', TRUST_PROXY: '' };
		expect(listenAddress(empty)).toEqual({ host: '127.0.0.1', port: 4173 });
	});
});
