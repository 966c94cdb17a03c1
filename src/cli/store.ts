import { randomUUID } from 'node:crypto';
import { readPlanFile } from '../lib/run/index.ts';
import {
	appendLog,
	backup as copyOut,
	createRun,
	exportAll,
	idSchema,
	importAll,
	nestsBeyond,
	openForRestore,
	openStore,
	restoreBackup,
	storeOptions,
	type Entry,
	type Held,
	type Store
} from '../lib/server/index.ts';
import { refuse, Refusal, type Answer } from './answer.ts';
import { nameOf, readText, replaceFile } from './file.ts';
import { help } from './help.ts';
import { onlyFile, readArguments } from './options.ts';

/** Reads the one FILE a store verb takes; null when help was asked for. */
function fileOf(args: readonly string[], verb: string): string | null {
	const { words, help: asked } = readArguments(args, {});
	return asked ? null : onlyFile(words, verb);
}

/** Opens the store for one act and closes it after it. */
export async function withStore(act: (store: Store) => Promise<Answer>): Promise<Answer> {
	const store = await openStore(storeOptions(process.env)).catch(asRefusal);
	try {
		return await act(store);
	} finally {
		await store.close();
	}
}

function asRefusal(error: unknown): never {
	throw new Refusal(error instanceof Error ? error.message : String(error));
}

const held = ({ runs, saves, entries }: Held) =>
	`${count(runs, 'run')}, ${count(saves, 'save')}, ${logCount(entries)}`;
const count = (number: number, word: string) => `${number} ${number === 1 ? word : `${word}s`}`;
const logCount = (number: number) => `${number} log ${number === 1 ? 'entry' : 'entries'}`;

/** `lazaret backup FILE`: a consistent copy, while the app may be running. */
export async function backup(args: readonly string[]): Promise<Answer> {
	const file = fileOf(args, 'backup');
	if (file === null) return { exit: 0, result: help() };
	return withStore(async (store) => ({
		exit: 0,
		say: `${file}: ${held(await copyOut(store, file).catch(asRefusal))}`
	}));
}

/** `lazaret restore FILE`: verifies the backup, keeps what it replaces, puts it in place. */
export async function restore(args: readonly string[]): Promise<Answer> {
	const file = fileOf(args, 'restore');
	if (file === null) return { exit: 0, result: help() };
	const { store, aside } = await openForRestore(storeOptions(process.env)).catch(asRefusal);
	try {
		const done = await restoreBackup(store, file);
		if (!done.ok) throw new Refusal(done.sentence);
		return { exit: 0, say: `${file}: ${held(done.held)}; what it replaced is in ${aside ?? done.kept}` };
	} finally {
		await store.close();
	}
}

/** `lazaret export FILE`: everything as one open JSON file; `-` prints it. */
export async function exportEverything(args: readonly string[]): Promise<Answer> {
	const file = fileOf(args, 'export');
	if (file === null) return { exit: 0, result: help() };
	return withStore(async (store) => {
		const everything = await exportAll(store);
		const text = JSON.stringify(everything, null, '\t');
		if (file === '-') return { exit: 0, result: text };
		replaceFile(file, `${text}\n`);
		return { exit: 0, say: `${file}: ${count(everything.runs.length, 'run')}` };
	});
}

/** `lazaret import FILE`: takes an export of everything, or one plan file, into the store. */
export async function importFile(args: readonly string[]): Promise<Answer> {
	const file = fileOf(args, 'import');
	if (file === null) return { exit: 0, result: help() };
	const text = readText(file);
	const json = readJson(file, text);
	return withStore((store) => (isPlan(json) ? takePlan(store, file, text) : takeAll(store, file, json)));
}

function readJson(file: string, text: string): unknown {
	const expected = 'an export of everything, or a plan file';
	if (nestsBeyond(text, 64)) refuse({ file: nameOf(file), saw: 'more than 64 levels of nesting', expected });
	try {
		return JSON.parse(text);
	} catch {
		return refuse({ file: nameOf(file), saw: 'text that is not JSON', expected });
	}
}

const isPlan = (json: unknown) =>
	typeof json === 'object' && json !== null && 'format' in json && json.format === 'lazaret-plan/1';

async function takeAll(store: Store, file: string, json: unknown): Promise<Answer> {
	const done = await importAll(store, json, 'import');
	if (!done.ok) throw new Refusal(`${nameOf(file)}: ${done.sentence}`);
	const { added, extended, kept, entries } = done.value;
	const say = `${nameOf(file)}: ${count(added, 'run')} added, ${extended} extended, ${kept} as they were, ${logCount(entries)} added`;
	return { exit: 0, say };
}

async function takePlan(store: Store, file: string, text: string): Promise<Answer> {
	const read = readPlanFile(text);
	if (!read.ok) throw new Refusal(`${nameOf(file)}: ${read.sentence}`);
	const { log = [], id, ...document } = read.value.document;
	const named = idSchema.safeParse(id);
	const created = await createRun(store, {
		id: named.success ? named.data : randomUUID(),
		document,
		who: 'import'
	});
	if (!created.ok) throw new Refusal(`${nameOf(file)}: ${created.sentence}`);
	const logged = await appendLog(store, created.run.id, log as Entry[], 'import');
	if (logged && !logged.ok) throw new Refusal(`${nameOf(file)}: log.${logged.sentence}`);
	const what = created.made ? `run ${created.run.name} added` : `run ${created.run.name} was there already`;
	return { exit: 0, say: `${nameOf(file)}: ${what}, ${logCount(logged?.added ?? 0)} added` };
}
