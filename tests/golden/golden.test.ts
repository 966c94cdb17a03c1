/**
 * Whole runs, kept as files: the plan file, the result it gives and the calendar made of it. A change of behaviour
 * shows in the diff of these files. Rewrite them with `UPDATE_GOLDEN=1 npx vitest run tests/golden`, and read the diff.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { planToIcs } from '../../src/lib/calendar/index.ts';
import { offerRepairs, plan, type Plan } from '../../src/lib/planner/index.ts';
import { applyAll, readPlanFile, readRun } from '../../src/lib/run/index.ts';

const folder = join(import.meta.dirname, 'plans');
const results = join(import.meta.dirname, 'results');
const names = readdirSync(folder).map((file) => basename(file, '.json'));

/** When each run is looked at; the others a day before anything begins. */
const clock: Record<string, string> = { 'eight-days-in': '2027-02-08T10:00:00Z' };
const nowOf = (name: string) => clock[name] ?? '2026-12-31T12:00:00Z';

/** Runs that are meant to be followed: nothing in them should be scolded. */
const good = ['copper-and-flukes', 'clownfish-formalin', 'injured-angelfish', 'low-salinity', 'tank-transfer', 'clock-change', 'freshwater-dip'];

const made = new Map(
	names.map((name) => {
		const file = readPlanFile(readFileSync(join(folder, `${name}.json`), 'utf8'));
		if (!file.ok) throw new Error(`${name}: ${file.sentence}`);
		const { document, run } = file.value;
		return [name, { document, run, plan: offerRepairs(document, nowOf(name), null) }];
	})
);
const of = (name: string) => {
	const one = made.get(name);
	if (!one) throw new Error(`no plan ${name}`);
	return one;
};

/** One line for each task, level and finding, so that a diff reads like the plan. */
function lines({ tasks, levels, findings, ...rest }: Plan): string {
	const list = (items: readonly unknown[]) => `[\n${items.map((item) => `\t\t${JSON.stringify(item)}`).join(',\n')}\n\t]`;
	const before = levels.filter(({ when }) => when === 'before').map((sample) => ({ ...sample, band: undefined }));
	const head = Object.entries(rest).map(([key, value]) => `\t${JSON.stringify(key)}: ${JSON.stringify(value)}`);
	return `{\n${[...head, `\t"findings": ${list(findings)}`, `\t"tasks": ${list(tasks)}`, `\t"levels before each service": ${list(before)}`].join(',\n')}\n}\n`;
}

function kept(file: string, text: string): string {
	const path = join(results, file);
	if (process.env.UPDATE_GOLDEN === '1' || !existsSync(path)) writeFileSync(path, text);
	return readFileSync(path, 'utf8');
}

describe.each(names)('%s', (name) => {
	it('gives the result kept for it', () => {
		const text = lines(of(name).plan);
		expect(text).toBe(kept(`${name}.json`, text));
	});

	it('makes the calendar kept for it', () => {
		const { run, plan } = of(name);
		const text = planToIcs(run, plan, { now: nowOf(name) });
		expect(text).toBe(kept(`${name}.ics`, text));
	});
});

describe('findings', () => {
	it.each(good)('%s has nothing to scold', (name) => {
		const loud = of(name).plan.findings.filter(({ severity }) => severity !== 'note');
		expect(loud.map(({ message }) => message)).toEqual([]);
		expect(of(name).plan.release).not.toBeNull();
	});

	it('the shark that would meet copper, and the tank that is too small, are stopped', () => {
		for (const name of ['shark-and-copper', 'forty-litres'])
			expect(of(name).plan.findings.some(({ severity }) => severity === 'stop')).toBe(true);
	});

	it('at least twelve rules offer a repair that is shown here, and each removes its finding without a new stop', () => {
		const offered = names.flatMap((name) =>
			of(name).plan.findings.flatMap((finding) => finding.repairs.map((repair) => ({ name, finding, repair })))
		);
		expect(new Set(offered.map(({ finding }) => finding.rule)).size).toBeGreaterThanOrEqual(12);
		for (const { name, finding, repair } of offered) {
			const mended = plan(readRun(applyAll(of(name).document, repair.edits), { today: null }), nowOf(name));
			const stops = ({ findings }: Plan) => findings.filter(({ severity }) => severity === 'stop').map(({ rule }) => rule);
			expect(mended.findings.map(({ message }) => message), repair.title).not.toContain(finding.message);
			const known = new Set(stops(of(name).plan));
			expect(stops(mended).filter((rule) => !known.has(rule)), repair.title).toEqual([]);
		}
	}, 60_000);
});
