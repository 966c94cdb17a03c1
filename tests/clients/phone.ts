import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { login } from './calendar-server.ts';
import { run } from './program.ts';

/** A keeper's phone: a folder that vdirsyncer keeps like a collection, and todoman on it. */
export interface Phone {
	sync: () => Promise<void>;
	/** ticks the next open to-do of that title, in todoman */
	tick: (title: string) => Promise<void>;
	/** titles of what is open and what is done, in todoman */
	shown: () => Promise<{ open: string[]; done: string[] }>;
	files: () => string[];
	/** the one file that holds this text */
	read: (holding: string) => string;
	holds: (text: string) => boolean;
	/** changes that file; null deletes it */
	change: (holding: string, change: (text: string) => string | null) => void;
}

export function phoneOn(collection: string, folder: string, kind: 'VTODO' | 'VEVENT' = 'VTODO'): Phone {
	const lists = join(folder, 'phone');
	const list = join(lists, 'run');
	mkdirSync(list, { recursive: true });
	const config = join(folder, 'phone-vdirsyncer.conf');
	writeFileSync(
		config,
		`[general]
status_path = "${join(folder, 'phone-status')}"
[pair tasks]
a = "phone"
b = "server"
collections = null
conflict_resolution = "b wins"
[storage phone]
type = "filesystem"
path = "${list}"
fileext = ".ics"
[storage server]
type = "caldav"
url = "${collection}"
username = "${login.user}"
password = "${login.password}"
item_types = ["${kind}"]
`
	);
	const todoConfig = join(folder, 'todoman.py');
	writeFileSync(
		todoConfig,
		`path = "${lists}/*"\ncache_path = "${join(folder, 'todoman.sqlite')}"\ndate_format = "%Y-%m-%d"\ntime_format = "%H:%M"\n`
	);
	const todo = (...args: string[]) => run('todoman', ['--config', todoConfig, ...args]);
	type Row = { id: number; summary: string; completed: boolean; due: number };
	const rows = async () => {
		const all = JSON.parse(await todo('--porcelain', 'list', '--status', 'ANY')) as Row[];
		return all.toSorted((a, b) => a.due - b.due);
	};
	const files = () => readdirSync(list).map((name) => join(list, name));
	const fileOf = (holding: string): string => {
		const path = files().find((file) => readFileSync(file, 'utf8').includes(holding));
		if (path === undefined) throw new Error(`no file holds ${holding}`);
		return path;
	};
	let met = false;
	return {
		sync: async () => {
			if (!met) await run('vdirsyncer', ['-c', config, 'discover', 'tasks']);
			met = true;
			await run('vdirsyncer', ['-c', config, 'sync', '--force-delete', 'tasks']);
		},
		tick: async (title) => {
			const row = (await rows()).find(({ summary, completed }) => summary === title && !completed);
			if (!row) throw new Error(`no open ${title}`);
			await todo('done', String(row.id));
		},
		shown: async () => {
			const all = await rows();
			const named = (done: boolean) =>
				all.filter(({ completed }) => completed === done).map(({ summary }) => summary);
			return { open: named(false), done: named(true) };
		},
		files,
		read: (holding) => readFileSync(fileOf(holding), 'utf8'),
		holds: (text) => files().some((file) => readFileSync(file, 'utf8').includes(text)),
		change: (holding, change) => {
			const path = fileOf(holding);
			const text = change(readFileSync(path, 'utf8'));
			if (text === null) rmSync(path);
			else writeFileSync(path, text);
		}
	};
}
