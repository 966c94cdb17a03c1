import { Refusal } from './answer.ts';
import { readText } from './file.ts';

const enter = new Set(['\r', '\n', '\u0004']);
const back = new Set(['\u0008', '\u007f']);

/**
 * A passphrase: the first line of a file (`-` is standard input), else typed at the terminal without being shown. Never
 * an argument: other programs could read it there.
 */
export async function readSecret(file: string | undefined, question: string): Promise<string> {
	if (file !== undefined) return firstLine(readText(file));
	if (!process.stdin.isTTY) return firstLine(readText('-'));
	const typed = await typedUnseen(`${question}: `);
	if ((await typedUnseen('Once more: ')) !== typed) throw new Refusal('the two passphrases differ');
	return typed;
}

const firstLine = (text: string) => text.split(/\r?\n/)[0] ?? '';

function typedUnseen(question: string): Promise<string> {
	const { stdin, stderr } = process;
	stderr.write(question);
	stdin.setRawMode(true);
	stdin.resume();
	return new Promise((resolve, reject) => {
		let typed: string[] = [];
		const end = (act: () => void) => {
			stdin.off('data', take);
			stdin.setRawMode(false);
			stdin.pause();
			stderr.write('\n');
			act();
		};
		const take = (data: Buffer) => {
			for (const character of data.toString('utf8')) {
				if (enter.has(character)) return end(() => resolve(typed.join('')));
				if (character === '\u0003') return end(() => reject(new Refusal('nothing was changed')));
				if (back.has(character)) typed = typed.slice(0, -1);
				else typed.push(character);
			}
		};
		stdin.on('data', take);
	});
}
