/**
 * `npm test`: types, lint, format, dead code, unit tests, build, browser tests. Prints each suite with what it
 * took, shows the output of those that failed, ends on one line of counts and a non-zero exit on any failure.
 *
 *   node .ci/test.mjs [SUITE ...]
 */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pinnedNode } from './ready.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const results = join(root, 'test-results');
const node = pinnedNode();
const bin = (path) => `node_modules/${path}`;
const unitReport = join(results, 'unit.json');
const browserReport = join(results, 'browser.json');

/** A suite is a list of commands; `report` is where its runner leaves counts, without one the suite counts as one. */
const stages = [
	[
		{
			name: 'types',
			steps: [
				[bin('@sveltejs/kit/svelte-kit.js'), 'sync'],
				[bin('svelte-check/bin/svelte-check'), '--tsconfig', './tsconfig.json', '--fail-on-warnings']
			]
		},
		{ name: 'lint', steps: [[bin('oxlint/bin/oxlint'), '--deny-warnings']] },
		{ name: 'arrows', steps: [['--test', '.ci/arrows.test.mjs']] },
		{ name: 'format', steps: [[bin('prettier/bin/prettier.cjs'), '--check', '--log-level', 'warn', '.']] },
		{ name: 'unused', steps: [[bin('knip/bin/knip.js')]] }
	],
	[
		{
			name: 'unit',
			report: unitReport,
			read: (json) => [json.numPassedTests, json.numFailedTests],
			steps: [
				['.ci/ready.mjs', 'cli'],
				[
					bin('vitest/vitest.mjs'),
					'run',
					'--reporter=dot',
					'--reporter=json',
					`--outputFile.json=${unitReport}`
				]
			]
		}
	],
	[{ name: 'build', steps: [['.ci/ready.mjs', 'app']] }],
	[
		{ name: 'budget', steps: [['.ci/budget.mjs']] },
		{
			name: 'browser',
			report: browserReport,
			read: (json) => [json.stats.expected + json.stats.flaky, json.stats.unexpected],
			env: { PLAYWRIGHT_JSON_OUTPUT_FILE: browserReport },
			steps: [
				[
					bin('@playwright/test/cli.js'),
					'test',
					'-c',
					'tests/browser/playwright.config.ts',
					'--reporter=list,json'
				]
			]
		}
	]
];

function run(args, env) {
	return new Promise((resolve) => {
		const child = spawn(node, args, {
			cwd: root,
			env: { ...process.env, ...env, FORCE_COLOR: '0' },
			stdio: ['ignore', 'pipe', 'pipe'],
			shell: process.platform === 'win32'
		});
		let output = '';
		child.stdout.on('data', (data) => (output += data));
		child.stderr.on('data', (data) => (output += data));
		child.on('close', (code) => resolve({ ok: code === 0, output }));
		child.on('error', (error) => resolve({ ok: false, output: String(error) }));
	});
}

async function runSuite(suite) {
	const began = performance.now();
	let ok = true;
	let output = '';
	for (const step of suite.steps) {
		const done = await run(step, suite.env);
		output += done.output;
		ok = done.ok;
		if (!ok) break;
	}
	const [passed, failed] = counts(suite, ok);
	const seconds = ((performance.now() - began) / 1000).toFixed(1);
	if (failed > 0 && output.trim()) console.log(output.trimEnd());
	console.log(
		`${failed > 0 ? 'FAILED' : 'ok    '} ${suite.name.padEnd(8)} ${passed} passed, ${failed} failed in ${seconds} s`
	);
	return { passed, failed };
}

function counts(suite, ok) {
	if (!suite.report) return ok ? [1, 0] : [0, 1];
	try {
		const [passed, failed] = suite.read(JSON.parse(readFileSync(suite.report, 'utf8')));
		// a runner may fail without a failed test, e.g. on an unhandled error, or find no test at all
		return [passed, !ok || passed === 0 ? Math.max(1, failed) : failed];
	} catch {
		return [0, 1];
	}
}

rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });
const only = process.argv.slice(2);
const total = { passed: 0, failed: 0 };
let built = true;
for (const stage of stages) {
	if (!built) {
		// an app that was not built has nothing to show a browser, and an old one would show the wrong thing
		for (const suite of stage) console.log(`FAILED ${suite.name}: not run, the build failed`);
		total.failed += stage.length;
		continue;
	}
	const queue = stage.filter((suite) => only.length === 0 || only.includes(suite.name));
	// two at a time: the machines this runs on have two cores
	const worker = async () => {
		for (let suite = queue.shift(); suite; suite = queue.shift()) {
			const { passed, failed } = await runSuite(suite);
			total.passed += passed;
			total.failed += failed;
			if (suite.name === 'build' && failed > 0) built = false;
		}
	};
	await Promise.all([worker(), worker()]);
}
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exit(total.failed > 0 || total.passed === 0 ? 1 : 0);
