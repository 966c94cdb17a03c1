import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect } from 'vitest';

const root = join(import.meta.dirname, '../..');

/** What the command line left behind. */
export interface Left {
	exit: number | null;
	out: string;
	say: string;
}

/** The built command line as a person meets it, in a folder of its own that goes with the tests of a file. */
export interface Terminal {
	folder: string;
	path: (name: string) => string;
	/** runs it and gives exit code, stdout and stderr */
	lazaret: (args: string[], input?: string | Buffer, env?: Record<string, string>) => Left;
	/** writes a file there, an object as JSON; answers its name */
	file: (name: string, content: unknown) => string;
}

/** Opens one for the tests of this file; builds the command line where it is stale. */
export function terminal(): Terminal {
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-cli-'));
	const path = (name: string) => join(folder, name);
	beforeAll(() => {
		spawnSync(process.execPath, [join(root, '.ci/ready.mjs'), 'cli']);
	}, 60_000);
	afterAll(() => rmSync(folder, { recursive: true, force: true }));
	return {
		folder,
		path,
		lazaret: (args, input = '', env = {}) => {
			const entry = join(root, 'build/cli/cli.js');
			const { status, stdout, stderr } = spawnSync(process.execPath, [entry, ...args], {
				cwd: folder,
				input,
				env: { ...process.env, LAZARET_DATA: path('data'), DATABASE_URL: '', ...env },
				encoding: 'utf8',
				maxBuffer: 1e8,
				timeout: 30_000
			});
			return { exit: status, out: stdout, say: stderr };
		},
		file: (name, content) => {
			const plain = typeof content === 'string' || Buffer.isBuffer(content);
			writeFileSync(path(name), plain ? content : JSON.stringify(content));
			return name;
		}
	};
}

/** An invented run: two doses a week apart, watched for thirty days. */
export const plan = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone: 'Europe/Lisbon',
	service: '08:00',
	tank: { name: 'T1', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	lots: [
		{
			id: 'a',
			what: 'gobies',
			group: 'goby',
			count: 2,
			mass: '10 g',
			feed: '0.2 g/d',
			protein: 0.09,
			arrived: '2027-02-01'
		}
	],
	medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
	phases: [
		{ id: 'settle', kind: 'settle', starts: 'on 2027-02-01', lasts: '2 d', test: 'NH3 daily' },
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'after settle',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		{ id: 'watch', kind: 'observe', starts: 'after flukes', lasts: '30 d' },
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};

export const now = ['--now', '2027-01-31T12:00:00Z'];

export const refused = (say: string | RegExp) => ({
	exit: 2,
	out: '',
	say: expect.stringMatching(say) as string
});

export const oneLine = /^[^\n]+\n$/;
