import type { Page } from '@playwright/test';

/** A line that a person reads or hears, and the elements it stands in, from the inmost out. */
export interface Line {
	text: string;
	/** what the line is in: tags, classes, names, for whoever looks for it */
	place: string;
	/** for each selector that was asked for, which of its elements holds the line; -1: none */
	parts: number[];
	/** it stands in an attribute, so that it is heard and not read */
	heard: boolean;
}

/** Every line of the open page that holds a figure, in the order of the page, and in which of the parts it stands. */
export const linesOf = (page: Page, parts: readonly string[]): Promise<Line[]> =>
	page.evaluate(collect, [...parts]);

/** Runs in the page. A line is the text of one block, its inline pieces run together; names and values are lines too. */
function collect(parts: string[]): Line[] {
	const found: Line[] = [];
	const groups = parts.map((selector) => [...document.querySelectorAll(selector)]);
	const name = (one: Element) =>
		one.tagName.toLowerCase() +
		(one.id && !/^s\d|^_/.test(one.id) ? `#${one.id}` : '') +
		[...one.classList]
			.filter((word) => !word.startsWith('svelte-'))
			.map((word) => `.${word}`)
			.join('') +
		['data-task', 'data-cell', 'data-date', 'data-day', 'aria-label']
			.flatMap((key) => (one.hasAttribute(key) ? [`[${key}="${one.getAttribute(key)}"]`] : []))
			.join('');
	const place = (from: Element) => {
		const chain: string[] = [];
		for (
			let one: Element | null = from;
			one && one !== document.body && chain.length < 5;
			one = one.parentElement
		)
			chain.unshift(name(one));
		return chain.join(' > ');
	};
	const keep = (element: Element, raw: string, heard: boolean) => {
		const text = raw.replace(/\s+/g, ' ').trim();
		if (!/\d/.test(text)) return;
		found.push({
			text,
			place: place(element),
			parts: groups.map((all) => all.findIndex((one) => one.contains(element))),
			heard
		});
	};
	let run: { block: Element; text: string } | null = null;
	const flush = () => {
		if (run) keep(run.block, run.text, false);
		run = null;
	};
	const speaks = 'text, title, desc, foreignObject, [aria-label], [aria-description]';
	const walk = (element: Element, block: Element) => {
		if (element.matches('script, style, noscript, template')) return;
		// lines and areas of a drawing say nothing
		if (element instanceof SVGElement && !element.matches(speaks) && !element.querySelector(speaks)) return;
		// what has no box of its own is judged by what is in it
		const { display } = getComputedStyle(element);
		if (display !== 'contents' && !element.checkVisibility({ visibilityProperty: true })) return;
		const isInline = /^(inline|contents|ruby)$/.test(display);
		const own = isInline && !(element instanceof SVGElement) ? block : element;
		if (own === element) flush();
		for (const key of ['aria-label', 'aria-description', 'aria-valuetext', 'title', 'alt', 'placeholder'])
			if (element.hasAttribute(key)) keep(element, element.getAttribute(key) ?? '', true);
		if (element instanceof HTMLInputElement && !/checkbox|radio|hidden|submit/.test(element.type))
			keep(element, element.value, false);
		if (element instanceof HTMLTextAreaElement) keep(element, element.value, false);
		if (element instanceof HTMLSelectElement) {
			for (const option of element.options) keep(element, option.text, false);
			return;
		}
		for (const node of element.childNodes) {
			if (node instanceof Element) walk(node, own);
			else if (node instanceof Text) {
				if (run?.block !== own) flush();
				run ??= { block: own, text: '' };
				run.text += node.data;
			}
		}
		if (own === element) flush();
	};
	keep(document.documentElement, document.title, true);
	walk(document.body, document.body);
	flush();
	return found;
}
