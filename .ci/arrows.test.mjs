/** Shows that the linter's import rules bite: each line below is written into a room of an empty tree and linted. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Which rooms the file's line breaks a rule in; an empty answer means the linter let it pass. */
function lint(file, line) {
	const tree = mkdtempSync(join(tmpdir(), 'arrows-'));
	try {
		cpSync(join(root, '.oxlintrc.json'), join(tree, '.oxlintrc.json'));
		mkdirSync(dirname(join(tree, file)), { recursive: true });
		writeFileSync(
			join(tree, file),
			file.endsWith('.svelte') ? `<script lang="ts">\n${line}\n</script>\n` : `${line}\n`
		);
		const args = [join(root, 'node_modules/oxlint/bin/oxlint'), '--format=json'];
		const { stdout } = spawnSync(process.execPath, args, { cwd: tree, encoding: 'utf8' });
		return JSON.parse(stdout).diagnostics.map((found) => found.code);
	} finally {
		rmSync(tree, { recursive: true });
	}
}

const imports = (path) => `import { a } from '${path}';\nexport const b = a;`;
const restricted = ['eslint(no-restricted-imports)'];

const refused = [
	['src/lib/units/a.ts', imports('../water/index.ts')],
	['src/lib/water/a.ts', imports('../formulary/index.ts')],
	['src/lib/formulary/a.ts', imports('../run/index.ts')],
	['src/lib/run/a.ts', imports('../planner/index.ts')],
	['src/lib/run/a.ts', imports('../planner')],
	['src/lib/planner/phases/a.ts', imports('../../calendar/index.ts')],
	['src/lib/planner/a.ts', imports('$lib/sheet')],
	['src/lib/sheet/a.ts', imports('../calendar/index.ts')],
	['src/lib/calendar/a.ts', imports('$lib/components/Sheet.svelte')],
	['src/lib/ledger/a.ts', imports('../calendar/index.ts')],
	['src/lib/planner/a.ts', imports('../ledger/index.ts')],
	['src/lib/components/A.svelte', imports('$lib/ledger/csv')],
	['src/lib/calendar/a.ts', imports('../server/index.ts')],
	['src/lib/calendar/a.ts', imports('../today/index.ts')],
	['src/lib/today/a.ts', imports('../calendar/index.ts')],
	['src/lib/today/a.ts', imports('../planner/march.ts')],
	['src/lib/planner/a.ts', imports('../today/index.ts')],
	['src/lib/components/A.svelte', imports('$lib/server')],
	['src/lib/server/a.ts', imports('../components/Sheet.svelte')],
	['src/lib/planner/a.ts', imports('../run/edit.ts')],
	['src/lib/planner/checks/a.ts', imports('../../units/quantity.ts')],
	['src/lib/components/A.svelte', imports('$lib/run/edit')],
	['src/routes/+page.ts', imports('$lib/server/store')],
	['src/cli/a.ts', imports('../lib/run/edit.ts')],
	['src/lib/planner/a.ts', imports('node:fs')],
	['src/lib/run/a.ts', imports('$app/environment')],
	['src/lib/planner/a.ts', imports('../../routes/run.ts')]
];
for (const [file, line] of refused) {
	test(`refuses in ${file}: ${line.split('\n')[0]}`, () => assert.deepEqual(lint(file, line), restricted));
}

const allowed = [
	['src/lib/water/a.ts', imports('../units/index.ts')],
	['src/lib/planner/checks/a.ts', imports('../../run/index.ts')],
	['src/lib/planner/phases/a.ts', imports('../plan.ts')],
	['src/lib/calendar/a.ts', imports('../planner/index.ts')],
	['src/lib/today/a.ts', imports('../planner/index.ts')],
	['src/lib/server/a.ts', imports('../today/index.ts')],
	['src/lib/server/a.ts', imports('node:fs')],
	['src/lib/server/a.ts', imports('../calendar/index.ts')],
	['src/lib/components/A.svelte', imports('$lib/sheet')],
	['src/routes/+page.server.ts', imports('$lib/server')]
];
for (const [file, line] of allowed) {
	test(`allows in ${file}: ${line.split('\n')[0]}`, () => assert.deepEqual(lint(file, line), []));
}

for (const line of [
	'export const a = Date.now();',
	'export const a = Math.random();',
	"export const a = fetch('/');",
	'export const a = process.env;'
]) {
	test(`refuses in the core: ${line}`, () => assert.equal(lint('src/lib/planner/a.ts', line).length, 1));
}

test('no core file reads the clock through a bare Date', () => {
	const rooms = ['units', 'water', 'formulary', 'run', 'planner', 'sheet', 'calendar', 'today'];
	const files = rooms.flatMap((room) => sources(join(root, 'src/lib', room)));
	assert.ok(files.length > 10);
	const guilty = files.filter((file) =>
		/new Date\(\s*\)|\bDate\(\s*\)|Temporal\.Now/.test(readFileSync(file, 'utf8'))
	);
	assert.deepEqual(guilty, []);
});

function sources(folder) {
	try {
		return readdirSync(folder, { recursive: true, encoding: 'utf8' })
			.filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
			.map((name) => join(folder, name));
	} catch {
		return [];
	}
}
