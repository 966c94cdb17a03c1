import {
	closeSync,
	fsyncSync,
	openSync,
	readSync,
	renameSync,
	rmSync,
	statSync,
	writeFileSync
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Refusal, refuse } from './answer.ts';

/** The largest file that is read, bytes: a plan at every limit of the format stays far below. */
export const mostBytes = 32 * 1024 * 1024;

/** What a sentence calls the file: `-` is standard input. */
export const nameOf = (file: string): string => (file === '-' ? 'standard input' : file);

/** The text of a file, or of standard input for `-`. Refuses what is missing, not a file, too large or not UTF-8. */
export function readText(file: string): string {
	const bytes = readBytes(file);
	const text = decode(bytes);
	if (text === null)
		refuse({ file: nameOf(file), saw: 'bytes that are not text', expected: 'a UTF-8 text file' });
	return text;
}

function decode(bytes: Uint8Array): string | null {
	try {
		return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
	} catch {
		return null;
	}
}

function readBytes(file: string): Uint8Array {
	let handle = 0;
	try {
		if (file !== '-') {
			if (statSync(file).isDirectory()) refuse({ file, saw: 'a folder', expected: 'a file' });
			handle = openSync(file, 'r');
		}
		return drain(file, handle);
	} catch (error) {
		if (error instanceof Refusal) throw error;
		return refuse({ file: nameOf(file), saw: trouble(error), expected: 'a file that can be read' });
	} finally {
		if (handle > 0) closeSync(handle);
	}
}

function drain(file: string, handle: number): Uint8Array {
	const chunks: Buffer[] = [];
	let total = 0;
	for (;;) {
		const chunk = Buffer.allocUnsafe(65536);
		const length = readSome(handle, chunk);
		if (length === 0) return Buffer.concat(chunks, total);
		chunks.push(chunk.subarray(0, length));
		total += length;
		if (total > mostBytes) {
			refuse({ file: nameOf(file), saw: 'more than 32 MiB', expected: 'a plan file, which is far smaller' });
		}
	}
}

/** A terminal or a slow pipe on standard input may have nothing yet, and says so by an error. */
function readSome(handle: number, chunk: Buffer): number {
	for (;;) {
		try {
			return readSync(handle, chunk);
		} catch (error) {
			const code = (error as NodeJS.ErrnoException).code;
			if (code === 'EOF') return 0;
			if (code !== 'EAGAIN') throw error;
			Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
		}
	}
}

/** Replaces a file whole or not at all: written beside it, forced to the disk, then renamed over it. */
export function replaceFile(file: string, text: string | Uint8Array): void {
	const part = join(dirname(file), `.${basename(file)}.${process.pid}.part`);
	try {
		if (statSync(file, { throwIfNoEntry: false })?.isDirectory())
			refuse({ file, saw: 'a folder', expected: 'a file' });
		writeFileSync(part, text, { flag: 'wx' });
		const handle = openSync(part, 'r+');
		fsyncSync(handle);
		closeSync(handle);
		renameSync(part, file);
	} catch (error) {
		rmSync(part, { force: true });
		if (error instanceof Refusal) throw error;
		refuse({ file, saw: trouble(error), expected: 'a file that can be written' });
	}
}

const words: Record<string, string> = {
	ENOENT: 'no such file or folder',
	EACCES: 'no permission',
	EPERM: 'no permission',
	EROFS: 'a read-only disk',
	ENOSPC: 'a full disk',
	ENOTDIR: 'a file where a folder should be',
	EISDIR: 'a folder',
	ENAMETOOLONG: 'too long a name',
	ELOOP: 'a link that leads to itself',
	ERR_INVALID_ARG_VALUE: 'a name no file can have'
};

function trouble(error: unknown): string {
	const code = (error as NodeJS.ErrnoException).code ?? '';
	return words[code] ?? (code || 'an error of the system');
}
