import { refuse } from './answer.ts';

/** The options a verb takes: a list of allowed words, or `text` for anything. */
export type OptionTable = Record<string, readonly string[] | 'text'>;

export interface Arguments {
	/** what stands outside options, in order */
	words: string[];
	options: Record<string, string>;
	help: boolean;
}

/**
 * Reads a verb's arguments against its table: `--name value` or `--name=value`; `--` ends the options and `-`
 * is a word. Refuses an option that is unknown, said twice, without a value or with a word that is not allowed.
 */
export function readArguments(args: readonly string[], table: OptionTable): Arguments {
	const read: Arguments = { words: [], options: {}, help: false };
	for (let i = 0; i < args.length; i++) {
		const arg = args[i] ?? '';
		if (arg === '--') {
			read.words.push(...args.slice(i + 1));
			break;
		}
		if (arg === '--help' || arg === '-h') read.help = true;
		else if (!arg.startsWith('-') || arg === '-') read.words.push(arg);
		else if (arg.includes('='))
			takeOption(read, table, arg.slice(0, arg.indexOf('=')), arg.slice(arg.indexOf('=') + 1));
		else takeOption(read, table, arg, args[++i]);
	}
	return read;
}

function takeOption(read: Arguments, table: OptionTable, name: string, value: string | undefined): void {
	const key = name.replace(/^--/, '');
	const allowed = name.startsWith('--') && Object.hasOwn(table, key) ? table[key] : undefined;
	if (allowed === undefined) refuse({ saw: name, expected: `one of ${optionNames(table)}` });
	if (key in read.options) refuse({ saw: `${name} twice`, expected: 'it once' });
	if (value === undefined || value === '')
		refuse({ place: name, saw: 'no value', expected: valueText(allowed) });
	if (allowed !== 'text' && !allowed.includes(value))
		refuse({ place: name, saw: value, expected: valueText(allowed) });
	read.options[key] = value;
}

const optionNames = (table: OptionTable) =>
	[...Object.keys(table), 'help'].map((name) => `--${name}`).join(', ');
const valueText = (allowed: readonly string[] | 'text') => (allowed === 'text' ? 'one' : allowed.join(', '));

/** The verb's single FILE. */
export function onlyFile(words: readonly string[], verb: string): string {
	const [file, ...more] = words;
	if (file === undefined) refuse({ saw: 'no file', expected: `lazaret ${verb} FILE` });
	if (more[0] !== undefined) refuse({ saw: `${more[0]} after ${file}`, expected: 'one file' });
	return file;
}
