import { describe, expect, it } from 'vitest';
import { readPlanFile, writePlanFile } from './index.ts';
import { fullDocument, withPlace } from './sample.ts';

const strict = (document: unknown) => readPlanFile(JSON.stringify(document));
const place = (document: unknown): string => {
	const read = strict(document);
	return read.ok ? 'read' : read.place;
};
const rows = (count: number, row: (i: number) => object) => Array.from({ length: count }, (_, i) => row(i));

describe('a plan file', () => {
	it('with every key is read, and nothing of it is lost when it is written', () => {
		const read = strict(fullDocument);
		expect(read).toMatchObject({ ok: true });
		if (!read.ok) return;
		expect(JSON.parse(writePlanFile(read.value.document))).toEqual(fullDocument);
		expect(writePlanFile(read.value.document).endsWith('}\n')).toBe(true);
	});

	it('holds each quantity in its one unit', () => {
		const read = strict(fullDocument);
		if (!read.ok) throw new Error(read.sentence);
		const { run } = read.value;
		// US gallon 3.785411784 L, NIST SP 811 appendix B; 79 F is 26.11 C.
		expect(run.tank.netL).toBeCloseTo(113.56235, 4);
		expect(run.tank.temperatureC).toBeCloseTo(26.1111, 4);
		// 1.025 at 25C/25C, EOS-80 (UNESCO 1983).
		expect(run.tank.salinityPpt).toBeCloseTo(33.19, 1);
		expect(run.tank).toMatchObject({ heaterWithinC: 1, filterClearsLPerDay: 0, lid: true, minutes: 30 });
		expect(run.source).toMatchObject({ volumeL: 200, mixed: true, nitrateMgPerL: 0 });
		expect(run.medicines.map(({ strength }) => strength)).toEqual([
			{ form: 'liquid', mgPerMl: 2 },
			{ form: 'powder', gPerG: 1 },
			{ form: 'whole', mlPerMl: 1 }
		]);
		expect(run.medicines[0]).toMatchObject({
			measure: 0.1,
			halfLifeDays: null,
			ceiling: 0.25,
			courseDays: 28
		});
		expect(run.medicines[1]).toMatchObject({ measure: 10, halfLifeDays: 3, gapDays: 7, contactHours: 30 });
		expect(run.phases[3]).toMatchObject({ level: { low: 12, high: 14 }, risePptPerDay: 2 });
		expect(run.phases[2]).toMatchObject({
			level: { low: 150, high: 150 },
			bathL: 20,
			lasts: { minutes: 45 }
		});
		expect(run.lots[0]).toMatchObject({ massG: 120, feedGPerDay: 2.4, tanMgPerDay: 60 });
		expect(run.services).toEqual(['08:00', '20:00']);
		expect(run.moves).toEqual({ 'copper/change/5': { day: '2026-12-05', time: null } });
	});

	it('may say no more than its format, its zone and nothing else', () => {
		const read = strict({ format: 'lazaret-plan/1', timeZone: 'UTC' });
		if (!read.ok) throw new Error(read.sentence);
		expect(read.value.run).toMatchObject({
			services: ['08:00'],
			limits: { nh3MgNPerL: 0.02, nitrateMgPerL: 10 },
			tank: { netL: null, holds: ['fish'], carbon: false, filterClearsLPerDay: 0 },
			phases: [],
			log: []
		});
	});

	it('may begin with a byte-order mark', () => {
		expect(readPlanFile(`\uFEFF${JSON.stringify(fullDocument)}`).ok).toBe(true);
	});

	it('may lack what a number needs: that is the plan to say', () => {
		for (const path of [
			'tank.net',
			'tank.pH',
			'medicines.0.strength',
			'phases.1.level',
			'lots.0.mass',
			'source',
			'spare'
		])
			expect([path, place(withPlace(fullDocument, path, undefined))]).toEqual([path, 'read']);
	});
});

// place in the document | what is put there | where the refusal points
const refused: [path: string, value: unknown, place: string][] = [
	['format', 'lazaret-plan/2', 'format'],
	['format', undefined, 'format'],
	['colour', 'red', 'colour'],
	['tank.litres', '112 L', 'tank.litres'],
	['phases.1.dose', '5 mL', 'phases.copper.dose'],
	['log.2.unit', 'mg/L', 'log.3.unit'],
	['log.5.lot.colour', 'red', 'log.6.lot.colour'],
	['timeZone', undefined, 'timeZone'],
	['timeZone', 'Mars/Olympus', 'timeZone'],
	['timeZone', '+01:00', 'timeZone'],
	['timeZone', 5, 'timeZone'],
	['service', '8 in the morning', 'service'],
	['service.1', '24:30', 'service.1'],
	['id', '', 'id'],
	['tank', [], 'tank'],
	['tank.net', '-5 L', 'tank.net'],
	['tank.net', '0 L', 'tank.net'],
	['tank.net', '112', 'tank.net'],
	['tank.net', 112, 'tank.net'],
	['tank.net', '112 kg', 'tank.net'],
	['tank.net', 'NaN', 'tank.net'],
	['tank.net', 'Infinity L', 'tank.net'],
	['tank.net', '1e400 L', 'tank.net'],
	['tank.net', '', 'tank.net'],
	['tank.net', null, 'tank.net'],
	['tank.temperature', '26 ppt', 'tank.temperature'],
	['tank.salinity', '1.025', 'tank.salinity'],
	['tank.salinity', '34', 'tank.salinity'],
	['tank.pH', 'acid', 'tank.pH'],
	['tank.pH', 81, 'tank.pH'],
	['tank.aeration', 'plenty', 'tank.aeration'],
	['tank.holds.0', 'cats', 'tank.holds.0'],
	['tank.carbon', 'yes', 'tank.carbon'],
	['tank.heater', '1 C', 'tank.heater'],
	['tank.heater.holdsWithin', '1', 'tank.heater.holdsWithin'],
	['spare.net', '90 m', 'spare.net'],
	['source.salinity', '1.026', 'source.salinity'],
	['source.nitrate', '-1 mg/L', 'source.nitrate'],
	['limits.nh3', '0 mg/L', 'limits.nh3'],
	['limits.nh3', '2 ppt', 'limits.nh3'],
	['lots.0.id', 'A 1', 'lots.A 1.id'],
	['lots.0.id', undefined, 'lots.0.id'],
	['lots.0.group', 'unicorn', 'lots.a.group'],
	['lots.0.mass', '64', 'lots.a.mass'],
	['lots.0.mass', '-64 g', 'lots.a.mass'],
	['lots.0.feed', '1.6 g', 'lots.a.feed'],
	['lots.0.count', 2.5, 'lots.a.count'],
	['lots.0.protein', 9, 'lots.a.protein'],
	['lots.0.arrived', '2026-02-30', 'lots.a.arrived'],
	['lots.0.arrived', '27 Nov', 'lots.a.arrived'],
	['medicines.0.active', 'copper', 'medicines.cu.active'],
	['medicines.0.active', undefined, 'medicines.cu.active'],
	['medicines.0.strength', '2', 'medicines.cu.strength'],
	['medicines.0.strength', '1 mL/mL', 'medicines.cu.strength'],
	['medicines.2.strength', '10 % w/v', 'medicines.fo.strength'],
	['medicines.2.strength', '37', 'medicines.fo.strength'],
	['medicines.0.measure', '10 mg', 'medicines.cu.measure'],
	['medicines.1.measure', '0.1 mL', 'medicines.pz.measure'],
	['medicines.0.measure', '0 mL', 'medicines.cu.measure'],
	['medicines.0.halfLife', 'never', 'medicines.cu.halfLife'],
	['medicines.0.level', '25 uL/L', 'medicines.cu.level'],
	['medicines.1.id', 'cu', 'medicines.cu.id'],
	['phases.1.id', 'settle', 'phases.settle.id'],
	['phases.1.id', '__proto__', 'phases.__proto__.id'],
	['phases.1.kind', 'cure', 'phases.copper.kind'],
	['phases.1.kind', undefined, 'phases.copper.kind'],
	['phases.1.medicine', 'pt', 'phases.copper.medicine'],
	['phases.1.starts', 'after nothing', 'phases.copper.starts'],
	['phases.1.starts', 'after 1', 'phases.copper.starts'],
	['phases.1.starts', 'on 2026-02-30', 'phases.copper.starts'],
	['phases.1.starts', 'on 27 Nov', 'phases.copper.starts'],
	['phases.1.starts', 'after settle + 12 h', 'phases.copper.starts'],
	['phases.1.starts', 'after copper', 'phases.copper.starts'],
	['phases.0.starts', 'after release', 'phases.settle.starts'],
	['phases.1.lasts', '28', 'phases.copper.lasts'],
	['phases.1.lasts', '1.5 d', 'phases.copper.lasts'],
	['phases.1.lasts', '-3 d', 'phases.copper.lasts'],
	['phases.1.lasts', 'until 30 Feb 2027', 'phases.copper.lasts'],
	['phases.1.level', '16 ppt', 'phases.copper.level'],
	['phases.1.level', '0.20-0.15 mg/L', 'phases.copper.level'],
	['phases.2.level', '150 mg/L', 'phases.bath.level'],
	['phases.3.level', '14 mg/L', 'phases.fresher.level'],
	['phases.3.level', '1.009', 'phases.fresher.level'],
	['phases.1.aim', '0.15-0.2 mg/L', 'phases.copper.aim'],
	['phases.1.repeat', 'now and then', 'phases.copper.repeat'],
	['phases.1.repeat', 'RRULE:FREQ=DAILY;INTERVAL=1.5', 'phases.copper.repeat'],
	['phases.1.change', '130% daily', 'phases.copper.change'],
	['phases.1.test', 'Pb daily', 'phases.copper.test'],
	['phases.1.target', 'mildew', 'phases.copper.target'],
	['phases.2.bath', '20 g', 'phases.bath.bath'],
	['phases.3.rise', '2 ppt', 'phases.fresher.rise'],
	['away.0', '11 Dec', 'away.0'],
	['moves', { 'nothing/change/5': '2026-12-05' }, 'moves.nothing/change/5'],
	['moves', { 'copper/change/5': 'tomorrow' }, 'moves.copper/change/5'],
	['log.0.at', '2026-11-30T08:12:00', 'log.1.at'],
	['log.0.at', '2026-02-30T08:12:00Z', 'log.1.at'],
	['log.0.at', undefined, 'log.1.at'],
	['log.0.id', undefined, 'log.0.id'],
	['log.0.kind', 'wish', 'log.1.kind'],
	['log.0.kind', undefined, 'log.1.kind'],
	['log.0.task', 'nothing/dose/1', 'log.1.task'],
	['log.0.task', undefined, 'log.1.task'],
	['log.0.amount', '5.0', 'log.1.amount'],
	['log.2.value', '0.12 ppt', 'log.3.value'],
	['log.2.value', undefined, 'log.3.value'],
	['log.2.value', '-0.12 mg/L', 'log.3.value'],
	['log.2.what', 'Pb', 'log.3.what'],
	['log.2.as', 'tan', 'log.3.as'],
	['log.3.lot', 'z', 'log.4.lot'],
	['log.3.signs', ['sad'], 'log.4.signs.0'],
	['log.4.count', 0, 'log.5.count'],
	['log.5.lot.id', 'a', 'log.6.lot.id'],
	['log.5.lot.group', 'unicorn', 'log.6.lot.group'],
	['log.6.litres', '30 g', 'log.7.litres'],
	['log.6.litres', undefined, 'log.7.litres'],
	['log.6.fraction', 0.3, 'log.7.litres'],
	['log.6.source', 'sea', 'log.7.source'],
	['log.7.medicine', 'pt', 'log.8.medicine'],
	['log.8.what', 'magnet', 'log.9.what'],
	['log.8.on', undefined, 'log.9.on'],
	['log.9.litres', '-1 L', 'log.10.litres'],
	['log.10.entry', '99', 'log.11.entry'],
	['log.10.as', undefined, 'log.11.as'],
	['log.10.as.value', '0.17', 'log.11.as.value'],
	['log.11.taken', 'twice', 'log.12.taken']
];

describe('a file that cannot be read is refused with the place', () => {
	it.each(refused)('%s = %j', (path, value, expected) => {
		const read = strict(withPlace(fullDocument, path, value));
		expect(read).toMatchObject({ ok: false, place: expected });
		if (!read.ok) expect(read.sentence).toMatch(/^.+: saw .+, expected .+$/);
	});

	it('names the first of several in the order of the file', () => {
		const two = withPlace(withPlace(fullDocument, 'medicines.0.strength', '2'), 'tank.net', '-5 L');
		expect(place(two)).toBe('tank.net');
		expect(place(withPlace(two, 'colour', 'red'))).toBe('tank.net');
		expect(place({ colour: 'red', ...two })).toBe('colour');
	});

	it('says what was seen and what would have been understood', () => {
		expect(strict(withPlace(fullDocument, 'timeZone', undefined))).toMatchObject({
			sentence: 'timeZone: saw nothing, expected an IANA time zone such as America/Chicago'
		});
		expect(strict(withPlace(fullDocument, 'tank.net', 112))).toMatchObject({
			sentence: 'tank.net: saw 112, expected a text with its unit in quotes, such as "112 L"'
		});
		expect(strict(withPlace(fullDocument, 'phases.1.starts', 'on 2026-02-30'))).toMatchObject({
			sentence:
				'phases.copper.starts: saw "on 2026-02-30", expected a date that exists, in the years 1900 to 2199'
		});
		expect(strict(withPlace(fullDocument, 'phases.0.starts', 'after release'))).toMatchObject({
			seen: '"after release"',
			expected: expect.stringContaining('settle, release, fresher, copper, settle')
		});
	});

	it.each([
		['phases', 501, (i: number) => ({ id: `p${i}`, kind: 'observe' })],
		['phases', 10_000, (i: number) => ({ id: `p${i}`, kind: 'observe', starts: `after p${i - 1}` })],
		['lots', 101, (i: number) => ({ id: `l${i}` })],
		['medicines', 51, (i: number) => ({ id: `m${i}`, active: 'other' })],
		[
			'log',
			20_001,
			(i: number) => ({ id: `${i}`, at: '2026-12-01T08:00:00Z', kind: 'topoff', litres: '1 L' })
		]
	] as const)('too many rows: %s %i', (list, count, row) => {
		expect(place({ format: 'lazaret-plan/1', timeZone: 'UTC', [list]: rows(count, row) })).toBe(list);
		expect(place({ format: 'lazaret-plan/1', timeZone: 'UTC', [list]: rows(50, row).slice(1) })).not.toBe(
			list
		);
	});

	it.each([
		['', '', 'an empty file'],
		['   ', '', 'an empty file'],
		['{"format": "lazaret-plan/1",', 'line 1', 'JSON that breaks off'],
		[
			JSON.stringify(fullDocument, null, 2).split('\n').slice(0, 20).join('\n'),
			'line 20',
			'JSON that breaks off'
		],
		['{"format": "lazaret-plan/1"\n"timeZone": "UTC"}', 'line 2', 'text that is not JSON'],
		['{"tank": {"pH": NaN}}', 'line 1', 'text that is not JSON'],
		['BEGIN:VCALENDAR', 'line 1', 'text that is not JSON'],
		['[]', '', 'a list'],
		['null', '', 'null'],
		['7', '', 'a number'],
		['['.repeat(100_000), '', 'more than 12 levels of nesting'],
		[`{"a":${'{"a":'.repeat(50_000)}1${'}'.repeat(50_001)}`, '', 'more than 12 levels of nesting'],
		[
			'{"format":"lazaret-plan/1","timeZone":"UTC","tank":{"__proto__":{"net":"1 L"}}}',
			'',
			'the key "__proto__"'
		],
		[
			'{"format":"lazaret-plan/1","timeZone":"UTC","tank":{"constructor":1}}',
			'tank.constructor',
			'the key "constructor"'
		],
		['{"format":"lazaret-plan/1","timeZone":"UTC","tank":{"pH":1e999}}', 'tank.pH', 'Infinity']
	])('%#: not a plan at all', (text, where, seen) => {
		expect(readPlanFile(text)).toMatchObject({ ok: false, place: where, seen });
	});

	it('leaves no mark on the objects of the program', () => {
		readPlanFile('{"format":"lazaret-plan/1","timeZone":"UTC","moves":{"__proto__":"2026-12-05"}}');
		expect(({} as Record<string, unknown>).net).toBeUndefined();
	});
});
