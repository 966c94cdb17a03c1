import { applyAll, readRun } from '../../../run/index.ts';
import { exampleDocument, exampleNow } from '../../example.ts';
import type { Finding, Plan, Severity } from '../../plan.ts';
import { plan } from '../../planning.ts';
import { offerRepairs } from '../../repair/offer.ts';

/**
 * Notation of the tables of cases: each row names a rule, a document that trips it, one that comes near and does not,
 * and what is said. Documents are the worked example with something changed:
 *
 *     { tank: { lights: 'on' } }              keys of the tank, source, limits (undefined takes a key away)
 *     { rows: { copper: { lasts: '14 d' } } } keys of a row
 *     { phases: [...] }                       other rows instead of the example's
 *     { lots, medicines, away, log, ... }     other keys of the file
 */
export interface Change {
	tank?: object;
	source?: object;
	limits?: object;
	rows?: Record<string, object>;
	lot?: object;
	[key: string]: unknown;
}

export interface Case {
	rule: string;
	trips: Change;
	near: Change;
	/** the whole message */
	says: string;
	severity: Severity;
	date: string | null;
	/** place in the file or task, where one is named */
	at?: string;
	/** absent: before the example begins */
	now?: string;
	/** the title of the first repair; absent: none is offered */
	mend?: string;
}

/** The worked example with something changed. */
export function changed({ tank, source, limits, rows = {}, lot, ...rest }: Change): Record<string, unknown> {
	const { phases, lots } = exampleDocument;
	return JSON.parse(
		JSON.stringify({
			...exampleDocument,
			tank: { ...exampleDocument.tank, ...tank },
			source: { ...exampleDocument.source, ...source },
			limits: { ...exampleDocument.limits, ...limits },
			lots: lots.map((one) => ({ ...one, ...lot })),
			phases: phases.map((row) => ({ ...row, ...rows[row.id] })),
			...rest
		})
	) as Record<string, unknown>;
}

/** Reads a document whose cells must all be readable, and plans it. */
export function planOf(document: object, now: string = exampleNow): Plan {
	const run = readRun(document, { today: null });
	const [problem] = run.problems;
	if (problem) throw new Error(`${problem.cell}: saw ${problem.seen}, expected ${problem.expected}`);
	return plan(run, now);
}

export const ofRule = ({ findings }: Plan, rule: string): Finding[] =>
	findings.filter((finding) => finding.rule === rule);

/** The findings of a case's rule in the document that trips it, and in the one that comes near. */
export const judge = ({ rule, trips, near, now }: Case) => ({
	tripped: ofRule(planOf(changed(trips), now), rule),
	quiet: ofRule(planOf(changed(near), now), rule)
});

/** Every repair offered for a document, with the plan that comes of it. */
export function mended(
	document: object,
	now: string = exampleNow,
	offered: Plan = offerRepairs(document, now, null)
) {
	return offered.findings.flatMap((finding) =>
		finding.repairs.map((repair) => ({
			offered,
			finding,
			repair,
			plan: planOf(applyAll(document, repair.edits), now)
		}))
	);
}

/** Bottles that the tables reach for. */
export const bottle = {
	cu: { id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
	pz: { id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
	cq: { id: 'cq', active: 'chloroquine', strength: '1 g/g', measure: '10 mg', prescribed: true },
	fo: { id: 'fo', active: 'formalin', strength: '1 mL/mL', measure: '0.1 mL' },
	ka: { id: 'ka', active: 'kanamycin', strength: '1 g/g', measure: '10 mg', prescribed: true },
	bo: {
		id: 'bo',
		active: 'botanical-antibacterial',
		strength: '10 mg/mL',
		measure: '0.1 mL',
		level: '5 mg/L'
	}
};

export const settle = {
	id: 'settle',
	kind: 'observe',
	starts: 'on 2026-11-27',
	lasts: '3 d',
	change: 'auto',
	test: 'NH3 daily'
};
export const hold = {
	id: 'copper',
	kind: 'hold',
	medicine: 'cu',
	starts: 'after settle',
	lasts: '28 d',
	level: '0.15-0.20 mg/L',
	repeat: 'ramp 3 d',
	change: 'auto',
	test: 'Cu daily'
};
export const watch = (after: string, days = 26) => [
	{ id: 'watch', kind: 'observe', starts: `after ${after}`, lasts: `${days} d`, change: '25% every 3 d' },
	{ id: 'release', kind: 'release', starts: 'after watch' }
];

/** Three days, one row of its own, a watch, release. */
export const course = (row: { id: string; [key: string]: unknown }, medicines: object[] = []): Change => ({
	medicines,
	phases: [settle, { starts: 'after settle', change: 'auto', ...row }, ...watch(row.id)]
});
export const pulse = (of: { id: string; [key: string]: unknown }, row: object): Change =>
	course({ id: 'p', kind: 'pulse', medicine: of.id, ...row }, [of]);
export const formalin = (row: object = {}): Change =>
	pulse(bottle.fo, {
		level: '25 uL/L',
		lasts: '3 doses',
		repeat: 'every 2 d',
		change: '50% before dose',
		target: 'brooklynella',
		...row
	});
export const bath = (row: object = {}): Change => ({
	medicines: [bottle.fo],
	phases: [
		{
			id: 'bath',
			kind: 'dip',
			medicine: 'fo',
			starts: 'on 2026-11-28',
			level: '150 uL/L',
			bath: '10 L',
			lasts: '45 min',
			...row
		},
		...watch('bath', 40)
	]
});
export const low = (row: object = {}): Change =>
	course({ id: 'low', kind: 'low-salinity', lasts: '28 d', level: '14 ppt', ...row });
export const moves = (row: object = {}): Change => ({
	spare: { name: 'Second tank' },
	...course({ id: 'moves', kind: 'transfer', lasts: '4 moves', change: undefined, ...row })
});
/** A tank that is only watched. */
export const waiting = (row: object = {}): Change => ({
	medicines: [],
	phases: [{ ...settle, ...row }, ...watch('settle', 40)]
});

/** A log; ids are given in order. */
export const log = (...entries: object[]): Change => ({
	log: entries.map((entry, i) => ({ id: String(i + 1), ...entry }))
});
export const look = (at: string, more: object): object => ({
	at,
	kind: 'observation',
	lot: 'a',
	signs: [],
	...more
});
export const readCopper = (at: string, value: string, as = 'ionic'): object => ({
	at,
	kind: 'reading',
	what: 'Cu',
	value,
	as
});
/** The first two doses of the example's copper, given. */
export const raised = ['2026-11-30', '2026-12-01'].map((day, i) => ({
	at: `${day}T08:05:00-06:00`,
	kind: 'done',
	task: `copper/dose/${i + 1}`
}));
