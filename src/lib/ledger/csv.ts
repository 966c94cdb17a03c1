/** Rows of cells, as text. */
export type Rows = string[][];

/**
 * Rows as RFC 4180 has them: CRLF, quotes doubled. A cell that a spreadsheet would take for a formula and run gets an
 * apostrophe, which {@link readDelimited} takes off again; figures keep their sign.
 */
export const writeCsv = (rows: readonly (readonly string[])[]): string =>
	rows.map((row) => `${row.map(written).join(',')}\r\n`).join('');

const figure = /^[+-]?\d+(\.\d+)?$/;

function written(cell: string): string {
	const text = /^[=+\-@\t＝＋－＠]/.test(cell) && !figure.test(cell) ? `'${cell}` : cell;
	return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows of pasted or uploaded text: by tabs if there is one outside quotes, else by semicolons or commas of its first line. */
export function readDelimited(text: string): Rows {
	const body = text.replace(/^\uFEFF/, '');
	const firstLine = body.slice(0, /\r?\n/.exec(body)?.index ?? body.length).replace(/"[^"]*"/g, '');
	const comma = firstLine.includes(';') && !/,.*,/.test(firstLine) ? ';' : ',';
	const separator = firstLine.includes('\t') ? '\t' : comma;
	return rowsOf(body, separator)
		.map((row) => row.map((cell) => cell.trim().replace(/^'(?=[=+\-@＝＋－＠])/, '')))
		.filter((row) => row.some((cell) => cell !== ''));
}

function rowsOf(text: string, separator: string): Rows {
	const rows: Rows = [];
	let row: string[] = [];
	let cell = '';
	let quoted = false;
	const endCell = () => {
		row.push(cell);
		cell = '';
	};
	for (let at = 0; at < text.length; at++) {
		const sign = text[at] ?? '';
		if (quoted) {
			if (sign !== '"') cell += sign;
			else if (text[at + 1] === '"') cell += text[at++];
			else quoted = false;
		} else if (sign === '"' && cell.trim() === '') {
			quoted = true;
			cell = '';
		} else if (sign === separator) endCell();
		else if (sign === '\n' || sign === '\r') {
			if (sign === '\r' && text[at + 1] === '\n') at++;
			endCell();
			rows.push(row);
			row = [];
		} else cell += sign;
	}
	if (cell !== '' || row.length > 0) {
		endCell();
		rows.push(row);
	}
	return rows;
}
