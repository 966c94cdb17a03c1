import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { applyAll, invert } from '../../run/index.ts';
import {
	bottle,
	changed,
	hold,
	log,
	mended,
	planOf,
	raised,
	readCopper,
	settle,
	watch,
	type Case,
	type Change
} from '../checks/cases/case.ts';
import { cases } from '../checks/cases/index.ts';
import { checks } from '../checks/index.ts';
import { exampleDocument, exampleNow } from '../example.ts';
import type { Finding, Plan } from '../plan.ts';
import { cellEdit, rowEdit } from './cells.ts';
import { cheaper, costText, type Cost } from './cost.ts';
import { offerRepairs } from './offer.ts';

/** The matter of a finding, told here without the planner's own notion: rule and place, or rule, day and job. */
const matter = ({ rule, phase, cell, date, task }: Finding) =>
	rule === 'away-on-task' || rule === 'time-moved' ? `${rule} ${date} ${task}` : `${rule} ${phase} ${cell}`;
const stops = ({ findings }: Plan) => findings.filter(({ severity }) => severity === 'stop').map(matter);

/** Each case planned, with its repairs carried out: once for all tests. */
const tried = new Map<Case, ReturnType<typeof mended>>();
const offeredFor = new Map<Case, Plan>();
beforeAll(() => {
	for (const one of cases) {
		const document = changed(one.trips);
		offeredFor.set(one, offerRepairs(document, one.now ?? exampleNow, null));
		tried.set(one, mended(document, one.now, offeredFor.get(one)));
	}
}, 240_000);

/** Every repair offered for a document must keep its promise. */
function expectKept(document: object, all: ReturnType<typeof mended>): number {
	for (const { offered, finding, repair, plan } of all) {
		expect(plan.findings.map(matter), `${repair.title} in ${finding.message}`).not.toContain(matter(finding));
		for (const stop of stops(plan)) expect(stops(offered), repair.title).toContain(stop);
		expect(plan.problems).toEqual([]);
		const back = applyAll(applyAll(document, repair.edits), repair.edits.map(invert).reverse());
		expect(JSON.parse(JSON.stringify(back))).toEqual(document);
	}
	return all.length;
}

describe('repairs', { timeout: 60_000 }, () => {
	it.each(cases.map((one) => [`${one.rule}: ${one.mend ?? 'none within reach'}`, one] as const))(
		'%s',
		(_, one) => {
			const found = offeredFor.get(one)?.findings.find(({ message }) => message === one.says);
			expect(found?.repairs[0]?.title).toBe(one.mend);
		}
	);

	it('tell what they cost', () => {
		const of = (change: Change, rule: string) =>
			offerRepairs(changed(change), exampleNow, null).findings.find((finding) => finding.rule === rule)
				?.repairs ?? [];
		// 3 + 17 days make release the 20th day after arrival: 10 are missing of 30
		expect(of({ medicines: [], phases: [settle, ...watch('settle', 17)] }, 'release-early')[0]).toMatchObject(
			{
				title: 'Watch 10 days longer',
				cost: expect.stringMatching(/^release \+10 days, \d+ L more water/)
			}
		);
		expect(of({ tank: { carbon: true } }, 'equipment-runs')[0]?.cost).toBe('nothing else moves');
		expect(of({ rows: { wash: { change: 'none' } } }, 'never-ends')[0]?.cost).toMatch(
			/^release on 2027-0\d-\d\d/
		);
	});

	it('are offered by at least twelve rules, and every one keeps its promise', () => {
		const offering = new Set(cases.filter(({ mend }) => mend).map(({ rule }) => rule));
		expect(offering.size).toBeGreaterThanOrEqual(12);
		for (const one of cases) expectKept(changed(one.trips), tried.get(one) ?? []);
	});

	it('leave the document and the plan they were asked about alone', () => {
		const document = changed({ rows: { copper: { lasts: '14 d' } } });
		const text = JSON.stringify(document);
		const offered = offerRepairs(document, exampleNow, null);
		expect(JSON.stringify(document)).toBe(text);
		const bare = planOf(document);
		expect({ ...offered, findings: [] }).toEqual({ ...bare, findings: [] });
		expect(offered.findings.map((finding) => ({ ...finding, repairs: [] }))).toEqual(bare.findings);
	});

	it('are at most three for a finding, the least disruptive first', () => {
		for (const one of cases)
			for (const { repairs } of offeredFor.get(one)?.findings ?? [])
				expect(repairs.length).toBeLessThanOrEqual(3);
		const [cysts] = offerRepairs(
			changed({ rows: { copper: { lasts: '14 d' } } }),
			exampleNow,
			null
		).findings.filter(({ rule }) => rule === 'cysts-outlive');
		expect(cysts?.repairs.map(({ title }) => title)).toEqual([
			'Move the fish to a clean second tank right after row 2 (hold)',
			'Hold it for 28 credited days'
		]);
	});

	it('are tried only for the findings somebody asks about, and are the same for those', () => {
		const document = changed({ rows: { copper: { lasts: '14 d' } }, tank: { carbon: true } });
		const every = offerRepairs(document, exampleNow, null).findings;
		const one = offerRepairs(document, exampleNow, null, ({ rule }) => rule === 'cysts-outlive').findings;
		expect(every.filter(({ repairs }) => repairs.length > 0).length).toBeGreaterThan(1);
		expect(one).toEqual(
			every.map((finding) => (finding.rule === 'cysts-outlive' ? finding : { ...finding, repairs: [] }))
		);
	});

	it('never write into the log, which is fact', () => {
		for (const one of cases)
			for (const { repair } of tried.get(one) ?? [])
				expect(repair.edits.some(({ path }) => path[0] === 'log')).toBe(false);
	});

	it('are tried for stops before notes when there are many findings', () => {
		const rows = Array.from({ length: 40 }, (_, i) => ({
			id: `w${i}`,
			kind: 'observe',
			starts: i === 0 ? 'on 2026-11-27' : `after w${i - 1}`,
			lasts: '4 d',
			change: '10% daily'
		}));
		const document = changed({
			medicines: [bottle.cu],
			phases: [...rows, { ...hold, starts: 'after w39' }, ...watch('copper')],
			tank: { carbon: true }
		});
		const { findings } = offerRepairs(document, exampleNow, null);
		expect(findings.find(({ rule }) => rule === 'equipment-runs')?.repairs).toHaveLength(1);
		expect(
			findings.filter(({ rule, repairs }) => rule === 'change-size' && repairs.length === 0).length
		).toBeGreaterThan(0);
	});
});

/** Plans that go wrong in several ways at once. */
const muddle: fc.Arbitrary<{ change: Change; now: string }> = fc
	.record({
		lasts: fc.constantFrom('7 d', '14 d', '21 d', '28 d'),
		ramp: fc.constantFrom('ramp 1 d', 'ramp 2 d', 'ramp 5 d'),
		level: fc.constantFrom('0.15-0.20 mg/L', '0.10-0.20 mg/L', '0.15-0.25 mg/L', '0.18 mg/L'),
		test: fc.constantFrom('Cu daily', 'Cu every 3 d', 'Cu every 5 d', 'NH3 daily'),
		changes: fc.constantFrom('auto', 'none', '10% every 3 d', '70% every 4 d', '25% every 10 d'),
		gap: fc.constantFrom('every 1 d', 'every 4 d', 'every 7 d', 'every 12 d'),
		pulse: fc.constantFrom('pz', 'cq', 'fo'),
		wash: fc.constantFrom('until clear', '2 d', '6 d'),
		washChange: fc.constantFrom('50% daily', '25% daily', 'none'),
		watchDays: fc.constantFrom(5, 10, 14),
		group: fc.constantFrom('cardinalfish', 'wrasse', 'goby', 'shark', 'tang'),
		feed: fc.constantFrom('0.5 g/d', '1.6 g/d'),
		arrived: fc.constantFrom('2026-11-27', '2026-11-30', '2026-12-05'),
		carbon: fc.boolean(),
		lights: fc.constantFrom('on', 'off'),
		aeration: fc.constantFrom('none', 'coarse', 'fine'),
		temperature: fc.constantFrom('22 C', '26 C', '28 C'),
		sourceC: fc.constantFrom('20 C', '26 C'),
		evaporates: fc.constantFrom('0 L/d', '2 L/d'),
		away: fc.subarray(['2026-12-01', '2026-12-09', '2026-12-11', '2026-12-12', '2027-01-05']),
		late: fc.boolean()
	})
	.map((one) => ({
		now: one.late ? '2026-12-02T18:00:00Z' : exampleNow,
		change: {
			medicines: [bottle.cu, bottle.pz, bottle.cq, bottle.fo],
			lot: { group: one.group, feed: one.feed, arrived: one.arrived },
			tank: {
				carbon: one.carbon,
				lights: one.lights,
				aeration: one.aeration,
				temperature: one.temperature,
				evaporates: one.evaporates
			},
			source: { temperature: one.sourceC },
			away: one.away,
			...(one.late ? log(...raised, readCopper('2026-12-02T08:10:00-06:00', '0.16 mg/L')) : {}),
			phases: [
				settle,
				{
					...hold,
					lasts: one.lasts,
					repeat: one.ramp,
					level: one.level,
					test: one.test,
					change: one.changes
				},
				{
					id: 'pulse',
					kind: 'pulse',
					medicine: one.pulse,
					starts: 'with copper + 2 d',
					lasts: '2 doses',
					level: one.pulse === 'fo' ? '25 uL/L' : '10 mg/L',
					repeat: one.gap
				},
				{
					id: 'wash',
					kind: 'washout',
					medicine: 'cu',
					starts: 'after copper',
					lasts: one.wash,
					change: one.washChange,
					carbon: true
				},
				...watch('wash', one.watchDays)
			]
		}
	}));

describe('repairs of random plans', () => {
	it('remove their finding and bring no new stop', () => {
		let offered = 0;
		fc.assert(
			fc.property(muddle, ({ change, now }) => {
				const document = changed(change);
				offered += expectKept(document, mended(document, now));
			}),
			{ seed: 20261127, numRuns: 15 }
		);
		expect(offered).toBeGreaterThan(40);
	}, 240_000);
});

describe('edits by place', () => {
	const document = exampleDocument as unknown as Record<string, unknown>;
	it('find a row by its id, make what is absent, and are nothing where the text is the same', () => {
		expect(cellEdit(document, 'phases.copper.lasts', '14 d')).toEqual({
			path: ['phases', 1, 'lasts'],
			to: '14 d',
			was: '28 d'
		});
		expect(cellEdit(document, 'moves|flukes/dose/2', '2026-12-10')).toEqual({
			path: ['moves'],
			to: { 'flukes/dose/2': '2026-12-10' }
		});
		expect(cellEdit(document, 'tank.heater.holdsWithin', '1 C')).toEqual({
			path: ['tank', 'heater'],
			to: { holdsWithin: '1 C' }
		});
		expect(cellEdit(document, 'phases.copper.lasts', '28 d')).toBeNull();
		expect(cellEdit(document, 'phases.nowhere.lasts', '28 d')).toBeNull();
		expect(cellEdit(document, 'phases.copper.aim', null)).toEqual({
			path: ['phases', 1, 'aim'],
			was: '0.18 mg/L'
		});
		expect(rowEdit(document, 'copper', { id: 'x' })).toEqual({ path: ['phases', 2], to: { id: 'x' } });
		expect(rowEdit(document, 'nowhere', { id: 'x' })).toBeNull();
	});
});

describe('what a repair costs', () => {
	const none: Cost = { cautions: [], releaseDays: 0, firstRelease: null, waterL: 0, doses: 0, jobs: 0 };
	it('is told in days, litres, doses, other jobs and new cautions', () => {
		expect(costText(none)).toBe('nothing else moves');
		expect(costText({ ...none, releaseDays: 1, waterL: 34 })).toBe('release +1 day, 34 L more water');
		expect(costText({ ...none, releaseDays: -2, waterL: -5, doses: 1, jobs: -3 })).toBe(
			'release −2 days, 5 L less water, 1 dose more, 3 other jobs fewer'
		);
		expect(costText({ ...none, cautions: ['pulse-gap'] })).toBe('brings a caution: pulse gap');
		expect(costText({ ...none, firstRelease: '2027-01-17', waterL: 50 })).toBe('release on 2027-01-17');
	});

	it('weighs a new caution over days, days over litres, litres over doses; less costs nothing', () => {
		const ordered: Cost[] = [
			{ ...none, releaseDays: -3, doses: -2 },
			{ ...none, jobs: 2 },
			{ ...none, doses: 1 },
			{ ...none, waterL: 3, releaseDays: -1 },
			{ ...none, releaseDays: 1 },
			{ ...none, cautions: ['pulse-gap'] }
		];
		expect(ordered.toReversed().sort(cheaper)).toEqual(ordered);
		expect(checks.filter(({ repairs }) => repairs).length).toBeGreaterThanOrEqual(12);
	});
});
