/** A block of cells as text, row by row. */
export type Block = string[][];

const quoted = /[\t\n\r"]/;

/** Tab-separated text as spreadsheets exchange it: cells that hold a tab, a line end or a quote are quoted. */
export const toTsv = (block: Block): string =>
	block
		.map((row) =>
			row.map((cell) => (quoted.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join('\t')
		)
		.join('\n');

/** Reads tab-separated text; a cell that begins with a quote runs to its closing quote, line ends included. */
export function fromTsv(text: string): Block {
	const block: Block = [];
	let row: string[] = [];
	let place = 0;
	const end = () => {
		block.push(row);
		row = [];
	};
	while (place < text.length) {
		let cell = '';
		if (text[place] === '"') {
			const [inner, after] = quotedCell(text, place);
			cell = inner;
			place = after;
		}
		while (place < text.length && !'\t\n\r'.includes(text[place] ?? '')) cell += text[place++];
		row.push(cell);
		const stop = text[place];
		place++;
		if (stop === '\r' && text[place] === '\n') place++;
		if (stop === '\t' && place === text.length) row.push('');
		if (stop !== '\t') end();
	}
	if (row.length) end();
	return block;
}

/** The text between the quotes and where it ends; a quote that never closes is taken as it stands. */
function quotedCell(text: string, from: number): [string, number] {
	let cell = '';
	for (let place = from + 1; place < text.length; place++) {
		if (text[place] !== '"') cell += text[place];
		else if (text[place + 1] === '"') cell += text[place++];
		else return [cell, place + 1];
	}
	return ['"', from + 1];
}

const escapes: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** The same block as an HTML table, for programs that prefer it. */
export const toHtml = (block: Block): string => {
	const cell = (text: string) =>
		`<td>${text.replace(/[&<>"]/g, (sign) => escapes[sign] ?? sign).replaceAll('\n', '<br>')}</td>`;
	return `<table>${block.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('')}</table>`;
};

const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ' };

const plainText = (html: string): string =>
	html
		.replace(/\s+/g, ' ')
		.replace(/<br[^>]*>/gi, '\n')
		.replace(/<[^>]*>/g, '')
		.replace(/&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (whole, ten?: string, sixteen?: string, name?: string) => {
			if (name !== undefined) return named[name.toLowerCase()] ?? whole;
			const code = ten === undefined ? parseInt(sixteen ?? '', 16) : Number(ten);
			return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
		})
		.replace(/ *\n */g, '\n')
		.trim();

const spanOf = (attributes: string, way: 'col' | 'row'): number =>
	Math.max(Number(new RegExp(`${way}span\\W+(\\d+)`, 'i').exec(attributes)?.[1] ?? 1), 1);

/** Reads the first table of an HTML clipboard, spans filled with blanks; null where there is none. */
export function fromHtml(html: string): Block | null {
	const table = /<table[\s>][\s\S]*?<\/table>/i.exec(html)?.[0];
	if (!table) return null;
	const block: Block = [];
	/** how many of the rows to come a cell above still covers, by column */
	const covered: number[] = [];
	for (const [, inner = ''] of table.matchAll(/<tr[^>]*>([\s\S]*?)(?=<tr[\s>]|<\/table>)/gi)) {
		const row: string[] = [];
		const blank = () => {
			covered[row.length] = Math.max(covered[row.length] ?? 0, 1) - 1;
			row.push('');
		};
		for (const [, attributes = '', content = ''] of inner.matchAll(
			/<t[dh]((?:\s[^>]*)?)>([\s\S]*?)(?=<t[dh][\s>]|<\/t[dh]>|<\/tr>|$)/gi
		)) {
			while (covered[row.length]) blank();
			const across = Math.min(spanOf(attributes, 'col'), 50);
			for (let more = 0; more < across; more++) {
				covered[row.length] = spanOf(attributes, 'row') - 1;
				row.push(more ? '' : plainText(content));
			}
		}
		while (row.length < covered.length) blank();
		block.push(row);
	}
	return block.length ? block : null;
}

/** A block as wide and as high as asked, repeated to fill. A whole number of times only, else as it is. */
export function tiled(block: Block, rows: number, columns: number): Block {
	const height = block.length;
	const width = Math.max(0, ...block.map((row) => row.length));
	if (!height || !width) return [];
	const down = rows % height === 0 ? rows : height;
	const across = columns % width === 0 ? columns : width;
	return Array.from({ length: down }, (_, r) =>
		Array.from({ length: across }, (_, c) => block[r % height]?.[c % width] ?? '')
	);
}
