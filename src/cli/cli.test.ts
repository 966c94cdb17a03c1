import { spawnSync } from 'node:child_process';
import {
	chmodSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	writeFileSync
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

/*
 * The built command line as a person meets it: `lazaret(args, input)` runs it in a folder of its own and gives exit
 * code, stdout and stderr.
 */
const root = join(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'lazaret-cli-'));
const path = (name: string) => join(folder, name);

beforeAll(() => {
	spawnSync(process.execPath, [join(root, '.ci/ready.mjs'), 'cli']);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function lazaret(args: string[], input: string | Buffer = '', env: Record<string, string> = {}) {
	const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'build/cli/cli.js'), ...args], {
		cwd: folder,
		input,
		env: { ...process.env, LAZARET_DATA: path('data'), DATABASE_URL: '', ...env },
		encoding: 'utf8',
		maxBuffer: 1e8,
		timeout: 30_000
	});
	return { exit: status, out: stdout, say: stderr };
}

const plan = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone: 'Europe/Lisbon',
	service: '08:00',
	tank: { name: 'T1', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	lots: [
		{
			id: 'a',
			what: 'gobies',
			group: 'goby',
			count: 2,
			mass: '10 g',
			feed: '0.2 g/d',
			protein: 0.09,
			arrived: '2027-02-01'
		}
	],
	medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
	phases: [
		{ id: 'settle', kind: 'settle', starts: 'on 2027-02-01', lasts: '2 d', test: 'NH3 daily' },
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'after settle',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		{ id: 'watch', kind: 'observe', starts: 'after flukes', lasts: '30 d' },
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};
const now = ['--now', '2027-01-31T12:00:00Z'];
const file = (name: string, content: unknown) => {
	writeFileSync(
		path(name),
		typeof content === 'string' || Buffer.isBuffer(content) ? content : JSON.stringify(content)
	);
	return name;
};
const refused = (say: string | RegExp) => ({
	exit: 2,
	out: '',
	say: expect.stringMatching(say) as string
});
const oneLine = /^[^\n]+\n$/;

describe('plan', () => {
	test('prints the plan and one newline, and nothing on stderr', () => {
		const { exit, out, say } = lazaret(['plan', file('a.json', plan), ...now]);
		expect([exit, say]).toEqual([0, '']);
		expect(out).toMatch(/[^\n]\n$/);
		// 2.5 mg/L in 100 L by hand
		expect(out).toContain('Praziquantel 250 mg');
	});
	test('as JSON is the same from standard input, and under any TZ', () => {
		const args = ['plan', '-', '--as', 'json', ...now];
		const outputs = ['UTC', 'America/New_York', 'Australia/Sydney'].map((TZ) =>
			lazaret(args, JSON.stringify(plan), { TZ })
		);
		expect(JSON.parse(outputs[0]?.out ?? '')).toMatchObject({
			format: 'lazaret-result/1',
			begins: '2027-02-01'
		});
		expect(new Set(outputs.map(({ out }) => out)).size).toBe(1);
	});
	test.each([
		['csv', /^[^\n]*date[^\n]*\n/],
		['ics', /^BEGIN:VCALENDAR\r\n[^]*END:VCALENDAR\r\n$/]
	])('as %s', (as, shape) => {
		const { exit, out, say } = lazaret(['plan', file('a.json', plan), '--as', as, ...now]);
		expect([exit, say]).toEqual([0, '']);
		expect(out).toMatch(shape);
		expect(out).not.toMatch(/\n\n$/);
	});
	test('with --out replaces the file whole and says so in one line', () => {
		file('out.ics', 'old');
		const { exit, out, say } = lazaret([
			'plan',
			file('a.json', plan),
			'--as',
			'ics',
			'--out',
			'out.ics',
			...now
		]);
		expect([exit, out]).toEqual([0, '']);
		expect(say).toMatch(/^out\.ics: \d+ tasks, release 2027-\d\d-\d\d, 0 stops\n$/);
		expect(readFileSync(path('out.ics'), 'utf8')).toBe(
			lazaret(['plan', 'a.json', '--as', 'ics', ...now]).out
		);
		expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
	});
	test('with --since hands on the stamps of what has not changed', () => {
		file('old.ics', lazaret(['plan', file('a.json', plan), '--as', 'ics', ...now]).out);
		const later = ['--now', '2027-02-01T00:00:00Z'];
		const moved = { ...plan, service: '09:00' };
		const same = lazaret(['plan', 'a.json', '--as', 'ics', '--since', 'old.ics', ...later]).out;
		const other = lazaret(['plan', file('b.json', moved), '--as', 'ics', '--since', 'old.ics', ...later]).out;
		expect(same).toBe(readFileSync(path('old.ics'), 'utf8'));
		expect(other).toContain('SEQUENCE:1');
		expect(other).toContain('DTSTAMP:20270201T000000Z');
	});
	test('a calendar file with chosen kinds, alarms and shape', () => {
		const ics = ['plan', file('a.json', plan), '--as', 'ics', ...now];
		const doses = lazaret([...ics, '--kinds', 'dose', '--alarms', 'dose=30', '--times', 'days']).out;
		expect(new Set(doses.match(/^CATEGORIES:.*$/gm))).toEqual(new Set(['CATEGORIES:dose']));
		expect(doses).toContain('BEGIN:VALARM');
		expect(doses).toContain('DTSTART;VALUE=DATE:');
		expect(lazaret([...ics, '--per', 'service']).out).toContain('/service/1@');
	});
	test('answers within two seconds', () => {
		const began = performance.now();
		lazaret(['plan', file('a.json', plan), ...now]);
		expect(performance.now() - began).toBeLessThan(2000);
	});
	test('a number that is missing is a finding, not an error', () => {
		const { net: _net, ...tank } = plan.tank;
		const { exit, out } = lazaret(['plan', file('n.json', { ...plan, tank }), '--as', 'json', ...now]);
		expect(exit).toBe(0);
		const result = JSON.parse(out) as { levels: unknown[]; tasks: { kind: string; amount: unknown }[] };
		expect(result.levels).toEqual([]);
		expect(result.tasks.filter((task) => task.kind === 'dose').map((task) => task.amount)).toEqual([
			null,
			null
		]);
	});
});

describe('a file that cannot be read is one sentence and exit 2', () => {
	const phase = (over: object) => ({ ...plan, phases: [{ ...plan.phases[0], ...over }] });
	test.each<[string, unknown, RegExp]>([
		['not JSON', 'dear diary', /^x\.json: .*not JSON/],
		['empty', '', /^x\.json: saw an empty file/],
		['broken off', JSON.stringify(plan).slice(0, 300), /^x\.json: /],
		['binary', Buffer.from([0xff, 0xfe, 0, 1, 2, 0x80]), /^x\.json: saw bytes that are not text/],
		['a list', [], /^x\.json: saw a list/],
		['of another format', { ...plan, format: 'lazaret-plan/9' }, /^x\.json: format: /],
		['with an unknown key', { ...plan, colour: 'blue' }, /^x\.json: colour: /],
		['with a negative volume', { ...plan, tank: { net: '-5 L' } }, /^x\.json: tank\.net: saw "?-5 L/],
		['with 30 February', phase({ starts: 'on 2027-02-30' }), /^x\.json: phases\.settle\.starts: /],
		['with a reference to nothing', phase({ starts: 'after nowhere' }), /^x\.json: phases\.settle\.starts: /],
		[
			'with a cycle',
			{
				...plan,
				phases: [
					{ id: 'a', kind: 'observe', starts: 'after b', lasts: '1 d' },
					{ id: 'b', kind: 'observe', starts: 'after a', lasts: '1 d' }
				]
			},
			/^x\.json: phases\.[ab]\.starts: /
		],
		['with an id twice', { ...plan, phases: [plan.phases[0], plan.phases[0]] }, /^x\.json: phases/],
		['with no zone', { ...plan, timeZone: 'Mars/Base' }, /^x\.json: timeZone: /],
		[
			'with 10,000 phases',
			{ ...plan, phases: Array.from({ length: 10_000 }, (_, i) => ({ id: `p${i}`, kind: 'observe' })) },
			/^x\.json: phases: saw 10000/
		],
		['nested 100,000 deep', '['.repeat(100_000), /^x\.json: /],
		['with NaN', JSON.stringify(plan).replace('8.1', 'NaN'), /^x\.json: /],
		['with control characters', { ...plan, timeZone: '\u001b[31m\nUTC' }, /^x\.json: timeZone: /]
	])('%s', (_, content, sentence) => {
		const answer = lazaret(['plan', file('x.json', content), '--out', 'never.txt', ...now]);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
		expect(answer.say).not.toContain('\u001b');
		expect(existsSync(path('never.txt'))).toBe(false);
	});
	test('more than 32 MiB', () => {
		expect(lazaret(['plan', file('big.json', ' '.repeat(33 * 1024 * 1024)), ...now])).toEqual(
			refused(/^big\.json: saw more than 32 MiB/)
		);
		rmSync(path('big.json'));
	});
	test.each([
		['a missing file', 'gone.json', /^gone\.json: saw no such file/],
		['a folder', '.', /^\.: saw a folder, expected a file/]
	])('%s', (_, name, sentence) => expect(lazaret(['plan', name, ...now])).toEqual(refused(sentence)));
});

describe('usage that is wrong is one sentence and exit 2', () => {
	test.each<[string[], RegExp]>([
		[[], /^saw no verb/],
		[['dance'], /^saw dance, expected one of plan, check, water/],
		[['constructor'], /^saw constructor/],
		[['plan'], /^saw no file, expected lazaret plan FILE/],
		[['plan', 'a.json', 'b.json'], /^saw b\.json after a\.json, expected one file/],
		[['plan', 'a.json', '--colour', 'blue'], /^saw --colour, expected one of --as/],
		[['plan', 'a.json', '-x'], /^saw -x, expected one of/],
		[['plan', 'a.json', '--as', 'pdf'], /^--as: saw pdf, expected text, json, csv, ics/],
		[['plan', 'a.json', '--as'], /^--as: saw no value/],
		[['plan', 'a.json', '--as', 'csv', '--as=ics'], /^saw --as twice/],
		[['plan', 'a.json', '--now', 'noon'], /^--now: saw noon, expected an instant/],
		[['plan', 'a.json', '--now', '2027-02-30T00:00:00Z'], /^--now: saw 2027-02-30/],
		[['plan', 'a.json', '--kinds', 'dose'], /^--kinds: saw --as text, expected --as ics/],
		[['plan', 'a.json', '--as', 'ics', '--kinds', 'party'], /^--kinds: saw party, expected kinds of task/],
		[['plan', 'a.json', '--as', 'ics', '--alarms', 'dose'], /^--alarms: saw dose, expected KIND=MINUTES/],
		[
			['plan', 'a.json', '--as', 'ics', '--alarms', 'dose=soon'],
			/^--alarms: saw soon, expected whole minutes/
		],
		[['plan', 'a.json', '--since', 'old.ics'], /^--since: saw --as text, expected --as ics/],
		[['plan', 'a.json', '--as', 'ics', '--since', 'a.json'], /^a\.json: --since: /],
		[['check', 'a.json', '--as', 'ics'], /^--as: saw ics, expected text, json/],
		[['plan', 'a.json', '--out', 'no/such/folder/x'], /^no\/such\/folder\/x: saw no such file or folder/],
		[['plan', 'a.json', '--out', '.'], /^\.: saw a folder/]
	])('%j', (args, sentence) => {
		file('a.json', plan);
		const answer = lazaret(args);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
	});
	test('a folder that may not be written', () => {
		mkdirSync(path('locked'));
		chmodSync(path('locked'), 0o500);
		const answer = lazaret(['plan', file('a.json', plan), '--out', 'locked/x', ...now]);
		chmodSync(path('locked'), 0o700);
		// root may write anywhere
		expect([0, 2]).toContain(answer.exit);
		expect(answer.exit === 0).toBe(process.getuid?.() === 0);
	});
});

describe('check', () => {
	test('exits 0 without a stop and 1 with one', () => {
		expect(lazaret(['check', file('a.json', plan), ...now]).exit).toBe(0);
		const { net: _net, ...tank } = plan.tank;
		const { exit, out, say } = lazaret(['check', file('n.json', { ...plan, tank }), '--as', 'json', ...now]);
		const { findings } = JSON.parse(out) as { findings: { severity: string; cell?: string }[] };
		expect(findings.some((finding) => finding.cell === 'tank.net')).toBe(true);
		expect([exit, say]).toEqual([findings.some((finding) => finding.severity === 'stop') ? 1 : 0, '']);
	});
});

test('help names every verb and gives examples', () => {
	const { exit, out, say } = lazaret(['--help']);
	expect([exit, say]).toEqual([0, '']);
	for (const verb of ['plan', 'check', 'water', 'backup', 'restore', 'export', 'import'])
		expect(out).toContain(`  ${verb} `);
	expect(out).toContain('npm run -s lazaret -- plan autumn.json');
	expect(lazaret(['plan', '--help']).out).toBe(out);
});

describe('the store', () => {
	test('takes a plan file once, exports, backs up, and restores', () => {
		const imported = lazaret(['import', file('a.json', { ...plan, id: 'trial' })]);
		expect(imported).toEqual({ exit: 0, out: '', say: 'a.json: run Trial added, 0 log entries added\n' });
		expect(lazaret(['import', 'a.json']).say).toBe(
			'a.json: run Trial was there already, 0 log entries added\n'
		);
		expect(lazaret(['backup', 'copy.sqlite']).say).toBe('copy.sqlite: 1 run, 1 save, 0 log entries\n');
		expect(lazaret(['export', 'all.json']).say).toBe('all.json: 1 run\n');
		const other = { LAZARET_DATA: path('other') };
		expect(lazaret(['import', 'all.json'], '', other).say).toBe(
			'all.json: 1 run added, 0 extended, 0 as they were, 0 log entries added\n'
		);
		expect(lazaret(['restore', 'copy.sqlite'], '', other).say).toMatch(
			/^copy\.sqlite: 1 run, 1 save, 0 log entries; what it replaced is in .*before-restore-\d+\.sqlite\n$/
		);
		const runs = (text: string) => (JSON.parse(text) as { runs: unknown }).runs;
		expect(runs(lazaret(['export', '-'], '', other).out)).toEqual(
			runs(readFileSync(path('all.json'), 'utf8'))
		);
	});
	test.each<[string[], RegExp]>([
		[['import', 'x.json'], /^x\.json: saw text that is not JSON/],
		[['import', 'bad.json'], /^bad\.json: tank\.net: /],
		[['restore', 'x.json'], /^x\.json: saw .*, expected a backup/],
		[['restore', 'gone'], /^gone: saw no such file, expected a backup/],
		[['export', 'no/such/x'], /^no\/such\/x: saw no such file or folder/]
	])('refuses %j', (args, sentence) => {
		file('x.json', 'dear diary');
		file('bad.json', { ...plan, tank: { net: '-1 L' } });
		const env = { LAZARET_DATA: path('fresh') };
		const answer = lazaret(args, '', env);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
	});
	test('its folder is readable by its owner only', () => {
		lazaret(['export', '-'], '', { LAZARET_DATA: path('private') });
		expect(statSync(path('private')).mode & 0o077).toBe(0);
	});
});

describe('people', () => {
	const env = { LAZARET_DATA: path('people') };
	const people = (args: string[], input = '') => lazaret(['people', ...args], input, env);
	const words = 'tide tables and kelp\n';
	test('are named, changed and sent away, the passphrase never an argument', () => {
		expect(people([]).out).toMatch(/^nobody is named/);
		expect(people(['add', 'Kim', 'keeper'], words)).toMatchObject({
			exit: 0,
			say: 'Kim: may enter as keeper\n'
		});
		writeFileSync(path('words'), words);
		const file = ['--passphrase-file', path('words')];
		expect(people(['add', 'Hal', 'helper', ...file])).toMatchObject({
			exit: 0,
			say: 'Hal: may enter as helper\n'
		});
		expect(people(['role', 'hal', 'viewer']).say).toBe('Hal: is now viewer\n');
		expect(people([]).out).toBe('keeper\tKim\nviewer\tHal\n');
		expect(people(['passphrase', 'Hal'], 'other words for the sea\n').exit).toBe(0);
		expect(people(['out', 'Hal']).exit).toBe(0);
		expect(people(['remove', 'Hal']).say).toBe('Hal: may enter no more\n');
	}, 60_000);
	test.each([
		[['remove', 'Kim'], '', /last keeper/],
		[['remove', 'Nobody'], '', /^saw Nobody, expected Kim\n$/],
		[['add', 'Lee'], '', /^saw people add Lee, expected people add NAME ROLE\n$/],
		[['add', 'Lee', 'captain'], words, /^saw captain, expected viewer, helper, keeper\n$/],
		[['add', 'Lee', 'helper'], 'short\n', /12/],
		[['add', 'Lee', 'helper', '--passphrase', 'x'], '', /--passphrase,/],
		[['promote', 'Kim'], '', /^saw people promote, expected one of: /]
	])(
		'%j is refused with one sentence',
		(args, input, sentence) => {
			const answer = people(args, input);
			expect(answer).toMatchObject({ exit: 2, out: '' });
			expect(answer.say).toMatch(sentence);
			expect(answer.say.trimEnd()).not.toContain('\n');
		},
		30_000
	);
});
