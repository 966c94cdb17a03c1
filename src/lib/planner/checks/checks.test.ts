import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleDocument } from '../example.ts';
import type { Finding } from '../plan.ts';
import { changed, judge, low, ofRule, planOf, type Case } from './cases/case.ts';
import { cases } from './cases/index.ts';
import { checks } from './index.ts';
import { rulesByDay } from './matter.ts';

/** Searching changes for some hundred plans takes its time on a busy machine. */
const patient = { timeout: 60_000 };
const gravity = { stop: 0, caution: 1, note: 2 };
const called = (one: Case, i: number) => [`${one.rule}: ${one.says}`, one, i] as const;

describe('each check', patient, () => {
	it.each(cases.map(called))('%s', (_, one) => {
		const { tripped, quiet } = judge(one);
		const said = tripped.find(({ message }) => message === one.says);
		expect(tripped.map(({ message }) => message)).toContain(one.says);
		expect({ severity: said?.severity, date: said?.date }).toEqual({
			severity: one.severity,
			date: one.date
		});
		if (one.at) expect(said?.cell ?? said?.task).toBe(one.at);
		expect(quiet).toEqual([]);
		tripped.forEach(expectReadable);
	});

	it('is there for each rule that is told apart by its day', () => {
		const rules = checks.map(({ rule }) => rule);
		expect([...rulesByDay].filter((rule) => !rules.includes(rule))).toEqual([]);
	});

	it('has a case here, an id of its own in kebab case, and says no more than its gravest', () => {
		const rules = checks.map(({ rule }) => rule);
		expect([...new Set(cases.map(({ rule }) => rule))].sort()).toEqual([...rules].sort());
		expect(new Set(rules).size).toBe(rules.length);
		for (const { rule, about, source } of checks) {
			expect(rule).toMatch(/^[a-z]+(-[a-z]+)*$/);
			expect([rule, about.length > 10, source.length > 5]).toEqual([rule, true, true]);
		}
		for (const { rule, severity } of cases) {
			const check = checks.find((one) => one.rule === rule);
			expect(gravity[severity], rule).toBeGreaterThanOrEqual(gravity[check?.severity ?? 'note']);
		}
	});
});

/** Whole sentences, with a source and no hole in them. */
function expectReadable({ rule, message, because, source }: Finding): void {
	for (const sentence of [message, because]) {
		expect(sentence, rule).toMatch(/\.$/);
		expect(sentence, rule).not.toMatch(/NaN|undefined|null|Infinity|\.\.|\[object| {2}/);
	}
	expect(source.length, rule).toBeGreaterThan(5);
}

describe('what would do', patient, () => {
	const crowd = (net: string, count = 25, feed = '8 g/d') =>
		planOf(
			changed({
				tank: { net, filterClears: 'none' },
				lot: { count, mass: `${(count * 320) / 25} g`, feed },
				away: []
			})
		);
	const [over] = ofRule(crowd('112 L'), 'ammonia-over');
	const litres = Number(/would take (\d+) L/.exec(over?.because ?? '')?.[1]);

	it('is enough, and a litre less would not be', () => {
		expect(litres).toBeGreaterThan(112);
		expect(ofRule(crowd(`${litres} L`), 'ammonia-over')).toEqual([]);
		expect(ofRule(crowd(`${Math.floor(litres * 0.98)} L`), 'ammonia-over')).toHaveLength(1);
	});
});

const wrong = ({ findings }: { findings: Finding[] }) =>
	findings.filter(({ severity }) => severity !== 'note');

describe('no false alarm', patient, () => {
	it('finds one caution in the worked example: a test on the day away', () => {
		expect(
			wrong(planOf(exampleDocument)).map(({ rule, severity, date, phase }) => ({
				rule,
				severity,
				date,
				phase
			}))
		).toEqual([{ rule: 'away-on-task', severity: 'caution', date: '2026-12-11', phase: 'copper' }]);
	});

	it('is content with nitrate alone, with UV and skimmer beside ionic copper, with a day between tests', () => {
		const plan = planOf(
			changed({
				away: [],
				medicines: [exampleDocument.medicines[0]],
				tank: { uv: true, skimmer: true },
				limits: { nitrate: '1 mg/L' },
				rows: {
					copper: { test: 'Cu every 2 d' },
					flukes: { kind: 'observe', medicine: undefined, level: undefined, repeat: undefined, lasts: '1 d' }
				}
			})
		);
		expect(wrong(plan)).toEqual([]);
		expect(ofRule(plan, 'nitrate-over')).toHaveLength(1);
	});

	it('says once that nothing is known of a fish, and once that measures are missing', () => {
		const plan = planOf(
			changed({
				lot: { group: 'other' },
				medicines: exampleDocument.medicines.map((one) => ({ ...one, measure: undefined }))
			})
		);
		expect(ofRule(plan, 'tolerance-unknown')).toHaveLength(1);
		expect(ofRule(plan, 'measure-missing')).toHaveLength(1);
	});

	const folder = new URL('../../../../tests/golden/plans/', import.meta.url);
	const meantBad: Record<string, string[]> = {
		'forty-litres.json': ['ammonia-over'],
		'shark-and-copper.json': ['not-tolerated']
	};
	// what the careless ones trip stands in their kept results
	const careful = readdirSync(folder).filter((name) => !name.startsWith('careless-'));
	it.each(careful)('finds what %s is meant to show, and no more', (name) => {
		const document = JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as { log?: { at: string }[] };
		const last = document.log?.at(-1)?.at;
		const now = last ? new Date(Date.parse(last) + 60_000).toISOString() : '2026-11-26T12:00:00Z';
		expect(wrong(planOf(document, now)).map(({ rule }) => rule)).toEqual(meantBad[name] ?? []);
	});
});

describe('the list', () => {
	it('is sorted by severity, date (the whole run last), phase and rule', () => {
		const { findings } = planOf(
			changed({
				...low({ level: '9 ppt' }),
				tank: { holds: ['fish', 'invertebrates'], heater: { holdsWithin: '3 C' }, pH: undefined },
				source: { pH: 8.9, ammonia: '0.3 mg/L' }
			})
		);
		const keys = findings.map(
			({ date, severity, phase, rule }) => `${gravity[severity]}|${date ?? '~'}|${phase ?? ' '}|${rule}`
		);
		expect(keys.length).toBeGreaterThan(4);
		expect(keys).toEqual([...keys].sort());
		expect(findings[0]?.severity).toBe('stop');
		expect(findings.findIndex(({ date }) => date === null)).toBeGreaterThan(0);
	});
});
