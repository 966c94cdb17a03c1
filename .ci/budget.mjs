/**
 * Holds the JavaScript of a page to its budget: every file that the built app loads before the page can be used
 * (the start of the app, the layouts, the page and all they import), each gzipped, in kB of 1000 bytes. What a page
 * fetches later, when somebody asks for it, is printed beside it and not counted.
 *
 *   node .ci/budget.mjs
 */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';

const output = join(dirname(fileURLToPath(import.meta.url)), '..', '.svelte-kit', 'output');
const client = (path) => join(output, 'client', path);
const budgets = { '/runs/[id]': 120, '/today': 60 };

const chunks = JSON.parse(readFileSync(client('.vite/manifest.json'), 'utf8'));
const { manifest } = await import(pathToFileURL(join(output, 'server/manifest-full.js')).href);

const keyOf = (tail) => {
	const key = Object.keys(chunks).find((one) => one.endsWith(tail));
	if (!key) throw new Error(`budget.mjs: the build has no ${tail}`);
	return key;
};

/** What is loaded with `keys`: they and all their imports, and theirs. */
function reached(keys, follow) {
	const seen = new Set();
	const visit = (key) => {
		if (seen.has(key)) return;
		seen.add(key);
		for (const next of follow(chunks[key])) visit(next);
	};
	keys.forEach(visit);
	return seen;
}

const kB = (keys) =>
	[...keys].reduce((sum, key) => sum + gzipSync(readFileSync(client(chunks[key].file))).length, 0) / 1000;

let over = false;
for (const [route, budget] of Object.entries(budgets)) {
	const page = manifest._.routes.find(({ id }) => id === route)?.page;
	if (!page) continue;
	const nodes = [...new Set([0, ...page.layouts, page.leaf])];
	const entries = [
		keyOf('runtime/client/entry.js'),
		keyOf('client-optimized/app.js'),
		...nodes.map((node) => keyOf(`client-optimized/nodes/${node}.js`))
	];
	const first = reached(entries, ({ imports = [] }) => imports);
	// the app's own entry names every page of the app: only what this page's files ask for is its own
	const own = reached(entries.slice(2), ({ imports = [], dynamicImports = [] }) => [
		...imports,
		...dynamicImports
	]);
	const later = new Set([...own].filter((key) => !first.has(key)));
	const size = kB(first);
	console.log(
		`${route}: ${size.toFixed(1)} of ${budget} kB before it can be used, ${kB(later).toFixed(1)} kB on demand`
	);
	if (size > budget) over = true;
}
if (over) {
	console.error('budget.mjs: a page loads more JavaScript than its budget');
	process.exit(1);
}
