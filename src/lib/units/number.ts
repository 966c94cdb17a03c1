import { read, unreadable, type Read } from './problem.ts';

/** Look-alike characters that keyboards, spreadsheets and phones put in place of plain ones. */
const lookAlikes: readonly (readonly [RegExp, string])[] = [
	[/[\u00a0\u2007\u2009\u202f\u3000\t\r\n]/g, ' '],
	[/[\u2212\u2010\u2011\u2013\ufe63\uff0d]/g, '-'],
	[/[\u00b5\u03bc]/g, 'u'],
	[/\u2103/g, '°C'],
	[/\u2109/g, '°F'],
	[/[\u00ba\u02da]/g, '°'],
	[/[\u2044\u2215]/g, '/'],
	[/³/g, '3'],
	[/¼/g, ' 1/4'],
	[/½/g, ' 1/2'],
	[/¾/g, ' 3/4']
];

/** The same text in plain characters, single spaces, trimmed. A superscript after a digit stays, so that it is refused. */
export function plain(text: string): string {
	// nearly every text is plain already, and a sheet is read anew on each keystroke
	if (/^[!-~]+(?: [!-~]+)*$/.test(text)) return text;
	let out = /\d³/.test(text) ? text.replace(/³/g, '^') : text;
	for (const [from, to] of lookAlikes) out = out.replace(from, to);
	return out.replace(/ +/g, ' ').trim();
}

const digits = '[+-]?(?:\\d[\\d.,]*|[.,]\\d+)(?:[eE][+-]?\\d+)?';
const vulgar = /^([+-]?)(?:(\d{1,4}) )?(\d{1,3})\/(\d{1,3})(?![\d.,])/;
const leading = new RegExp(`^${digits}`);
const expectedNumber = 'a number such as 12, 0.5 or 1/4';

/** The number at the start of a plain text and what follows it. */
export function splitNumber(text: string): Read<{ value: number; rest: string }> {
	const parts = vulgar.exec(text);
	if (parts) {
		const share = Number(parts[3]) / Number(parts[4]);
		if (!Number.isFinite(share)) return unreadable('number', text, expectedNumber);
		const value = Number(parts[2] ?? 0) + share;
		return read({ value: parts[1] === '-' ? -value : value, rest: text.slice(parts[0].length).trim() });
	}
	const typed = leading.exec(text)?.[0];
	if (typed === undefined) return unreadable('number', text, expectedNumber);
	const value = numberOf(typed);
	if (value === null) return unreadable('number', text, `${expectedNumber}, without separators`);
	if (value === 'ambiguous') {
		const bare = typed.replace(',', '');
		return unreadable(
			'ambiguous-number',
			text,
			`either ${bare} or ${typed.replace(',', '.')}: a comma there may mean both`
		);
	}
	return read({ value, rest: text.slice(typed.length).trim() });
}

/** Commas: two or more, or before a point, group thousands; one is a decimal sign unless it could be either. */
function numberOf(typed: string): number | null | 'ambiguous' {
	const [mantissa = '', exponent] = typed.split(/[eE]/);
	const sign = mantissa.startsWith('-') ? -1 : 1;
	const body = mantissa.replace(/^[+-]/, '');
	const plainBody = unpunctuated(body);
	if (plainBody === null || plainBody === 'ambiguous') return plainBody;
	const value = sign * Number(exponent === undefined ? plainBody : `${plainBody}e${exponent}`);
	return Number.isFinite(value) ? value : null;
}

function unpunctuated(body: string): string | null | 'ambiguous' {
	if (!body.includes(',')) return /^(\d+\.?\d*|\.\d+)$/.test(body) ? body : null;
	if (/^[1-9]\d{0,2}(,\d{3})+\.\d*$/.test(body) || /^[1-9]\d{0,2}(,\d{3}){2,}$/.test(body))
		return body.replace(/,/g, '');
	if (/^[1-9]\d{0,2}(\.\d{3})+,\d*$/.test(body)) return body.replace(/\./g, '').replace(',', '.');
	if (/^[1-9]\d{0,2},\d{3}$/.test(body)) return 'ambiguous';
	return /^\d*,\d+$/.test(body) ? body.replace(',', '.') : null;
}

/** A number with nothing after it, such as a pH. Refuses NaN, infinities, hex and anything with a unit. */
export function readNumber(text: string): Read<number> {
	const split = splitNumber(plain(text));
	if (!split.ok) return { ok: false, problem: { ...split.problem, seen: text } };
	return split.value.rest === ''
		? read(split.value.value)
		: unreadable('number', text, 'a number without a unit');
}
