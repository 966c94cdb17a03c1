/**
 * Makes a checkout ready before a script runs: installs what the lock file names, builds what is stale.
 * Plain JavaScript without dependencies, since on a fresh machine it runs on whatever Node is there (20 or
 * newer). Speaks on stderr only: stdout belongs to the script that follows.
 *
 *   node .ci/ready.mjs node      drop a bundled Node that cannot start here, so that the system's is used
 *   node .ci/ready.mjs install   install when node_modules differs from the lock
 *   node .ci/ready.mjs app|cli   install, then build the app or the command line when sources are newer
 */
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdirSync, openSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { statSync, unlinkSync, writeFileSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const at = (...parts) => join(root, ...parts);
const say = (text) => process.stderr.write(`lazaret: ${text}\n`);
const windows = process.platform === 'win32';

/** The Node that npm brought, or this process's own where that one is missing or cannot start (musl). */
export function pinnedNode() {
	const path = at('node_modules', '.bin', windows ? 'node.cmd' : 'node');
	if (!existsSync(path)) return process.execPath;
	const trial = spawnSync(path, ['--version'], { shell: windows });
	if (trial.status === 0) return path;
	if (!windows) unlinkSync(path);
	return process.execPath;
}

/** True when every package of the lock stands in node_modules at the version the lock names. */
export function installed() {
	try {
		const want = JSON.parse(readFileSync(at('package-lock.json'), 'utf8')).packages;
		const have = JSON.parse(readFileSync(at('node_modules', '.package-lock.json'), 'utf8')).packages;
		return Object.entries(want).every(
			([path, entry]) =>
				path === '' || (have[path] ? have[path].version === entry.version : entry.optional === true)
		);
	} catch {
		return false;
	}
}

export function install() {
	if (installed()) return;
	say('installing packages (npm ci)');
	const npm = process.env.npm_execpath;
	const env = {
		...process.env,
		npm_config_loglevel: 'error',
		npm_config_fund: 'false',
		npm_config_audit: 'false'
	};
	const options = { cwd: root, env, stdio: ['ignore', 2, 2] };
	const done = npm
		? spawnSync(process.execPath, [npm, 'ci'], options)
		: spawnSync('npm', ['ci'], { ...options, shell: windows });
	if (done.status !== 0) fail('npm ci failed: is the npm registry reachable?');
	pinnedNode();
}

/** What each product is built from, and the file that says when that was last done. */
const products = {
	app: {
		from: ['src', 'static', 'svelte.config.js', 'vite.config.ts', 'package-lock.json', '.ci/bundle.mjs'],
		makes: 'build/app/handler.js',
		steps: [
			['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'],
			['.ci/bundle.mjs', 'server']
		]
	},
	cli: {
		from: ['src/cli.ts', 'src/cli', 'src/lib', 'package-lock.json', '.ci/bundle.mjs'],
		makes: 'build/cli/cli.js',
		// the bundler reads tsconfig.json, which extends a file that SvelteKit writes
		steps: [
			['node_modules/@sveltejs/kit/svelte-kit.js', 'sync'],
			['.ci/bundle.mjs', 'cli']
		]
	}
};

function newest(path) {
	const stat = statSync(path, { throwIfNoEntry: false });
	if (!stat) return 0;
	if (!stat.isDirectory()) return path.endsWith('.test.ts') ? 0 : stat.mtimeMs;
	return readdirSync(path).reduce((latest, name) => Math.max(latest, newest(join(path, name))), stat.mtimeMs);
}

function stale(product) {
	const stamp = at('build', `.${product}`);
	if (!existsSync(stamp) || !existsSync(at(products[product].makes))) return true;
	const built = Number(readFileSync(stamp, 'utf8'));
	return products[product].from.some((path) => newest(at(path)) > built);
}

/** Builds one product when its sources are newer than the last build; two callers at once wait for each other. */
export function build(product) {
	if (!stale(product)) return;
	mkdirSync(at('build'), { recursive: true });
	const release = lock(at('build', `.${product}.lock`));
	try {
		if (!stale(product)) return;
		say(product === 'app' ? 'building the app' : 'building the command line');
		const began = Date.now();
		const node = pinnedNode();
		for (const step of products[product].steps) {
			const done = spawnSync(node, step, { cwd: root, stdio: ['ignore', 2, 2], shell: windows });
			if (done.status !== 0) fail(`the build failed at ${step.slice(0, 2).join(' ')}`);
		}
		writeFileSync(at('build', `.${product}`), String(began));
	} finally {
		release();
	}
}

function lock(path) {
	for (let waited = 0; ; waited += 200) {
		try {
			const file = openSync(path, 'wx');
			writeSync(file, String(process.pid));
			closeSync(file);
			return () => rmSync(path, { force: true });
		} catch (error) {
			if (error.code !== 'EEXIST') throw error;
			if (waited > 300_000 || !alive(path)) rmSync(path, { force: true });
			else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
		}
	}
}

function alive(path) {
	try {
		const pid = Number(readFileSync(path, 'utf8'));
		// the writer may be between creating the file and naming itself
		if (!pid) return true;
		process.kill(pid, 0);
		return true;
	} catch (error) {
		return error.code === 'EPERM';
	}
}

function fail(text) {
	say(text);
	process.exit(2);
}

if (process.argv[1] && pathToFileURL(process.argv[1]).href === import.meta.url) {
	const [what] = process.argv.slice(2);
	if (what === 'node') pinnedNode();
	else {
		install();
		if (what === 'app' || what === 'cli') build(what);
	}
}
