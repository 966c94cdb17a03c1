/**
 * Text as RFC 5545 lets it stand: line ends become \n, other control characters go (a NUL makes libical give
 * up, a bare CR vobject), lone surrogates become U+FFFD. C1 controls and the Unicode line separators go too:
 * several readers split lines at them.
 */
export const clean = (text: string): string => (plain.test(text) ? text : cleaned(text));

/** Most texts: nothing to clean. */
const plain = /^[\t\n -~]*$/;

const cleaned = (text: string): string =>
	text
		.toWellFormed()
		.replace(/\r\n?|[\u0085\u2028\u2029]/g, '\n')
		// eslint-disable-next-line no-control-regex
		.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\ufeff]/g, '');

/** A cleaned TEXT value, escaped (RFC 5545 3.3.11). */
export const escape = (text: string): string =>
	/[\\;,\n]/.test(text) ? text.replace(/[\\;,]/g, '\\$&').replace(/\n/g, '\\n') : text;

/** Longest physical line, in octets, without its line end (RFC 5545 3.1). */
const lineOctets = 75;

/** One content line cut into lines of at most 75 octets, never inside a code point, without the last line end. */
export function fold(line: string): string {
	if (line.length * 3 <= lineOctets) return line;
	if (plain.test(line)) return foldPlain(line);
	let folded = '';
	let from = 0;
	let octets = 0;
	for (let at = 0; at < line.length;) {
		const code = line.codePointAt(at) ?? 0;
		const size = code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
		if (octets + size > lineOctets) {
			folded += `${line.slice(from, at)}\r\n `;
			from = at;
			octets = 1;
		}
		octets += size;
		at += code > 0xffff ? 2 : 1;
	}
	return folded + line.slice(from);
}

function foldPlain(line: string): string {
	let folded = line.slice(0, lineOctets);
	for (let at = lineOctets; at < line.length; at += lineOctets - 1)
		folded += `\r\n ${line.slice(at, at + lineOctets - 1)}`;
	return folded;
}

/** Without white space at either end, which libical drops on reading. */
export const trimmed = (text: string): string =>
	isSpace(text.charCodeAt(0)) || isSpace(text.charCodeAt(text.length - 1))
		? text.replace(/^[ \t\n]+|[ \t\n]+$/g, '')
		: text;

const isSpace = (code: number): boolean => code === 32 || code === 9 || code === 10;

/** At most `most` UTF-16 units, ending in an ellipsis where something was cut, never inside a code point. */
export function cut(text: string, most: number): string {
	if (text.length <= most) return text;
	if (most < 1) return '';
	return `${text.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}
