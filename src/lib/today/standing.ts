import { suspects } from '../formulary/index.ts';
import type { Plan } from '../planner/index.ts';
import type { Fact, Phase, Run } from '../run/index.ts';

const MS_PER_DAY = 86_400_000;

/** How clean a tank counts, cleanest first: the order of work (common practice; where each stands: judgment, no source). */
export const standings = ['display', 'watched', 'treated', 'new', 'suspected', 'sick'] as const;
export type Standing = (typeof standings)[number];

export const standingName: Record<Standing, string> = {
	display: 'display',
	watched: 'clean so far',
	treated: 'under treatment',
	new: 'new arrivals',
	suspected: 'suspected',
	sick: 'sick'
};

/** Signs and losses speak this long: as long as the fish are watched before release. */
const SPEAKS_DAYS = 14;
/** A single sign that speaks this loudly for a disease counts as sick. */
const LOUD = 3;

/** Where a tank stands, and the sentence that says why. */
export interface Stood {
	standing: Standing;
	why: string;
	/** signs that speak these days */
	signs: string[];
}

/** Judged by what is logged (signs, losses), by what the fish came with, and by what they are treated for. */
export function standingOf(
	run: Run,
	plan: Plan,
	facts: readonly Fact[],
	nowMs: number,
	today: string
): Stood {
	const recent = facts.filter(({ atMs }) => atMs <= nowMs && nowMs - atMs < SPEAKS_DAYS * MS_PER_DAY);
	const signs = signsOf(run, recent, nowMs);
	return { ...judged(run, plan, recent, signs, today), signs };
}

function judged(
	run: Run,
	plan: Plan,
	recent: readonly Fact[],
	signs: readonly string[],
	today: string
): Omit<Stood, 'signs'> {
	const lost = recent.reduce((sum, fact) => sum + (fact.kind === 'loss' ? fact.count : 0), 0);
	const said = signs.map((sign) => sign.replaceAll('-', ' ')).join(', ');
	if (lost > 0)
		return { standing: 'sick', why: `${said ? `${said}, ` : ''}${lost} lost within ${SPEAKS_DAYS} days` };
	if (signs.length > 0) {
		const [loudest] = suspects(signs);
		return loudest && loudest.weight >= LOUD
			? { standing: 'sick', why: `${said} logged` }
			: { standing: 'suspected', why: `${said} logged` };
	}
	const active = run.phases.filter(({ id }) => {
		const span = plan.phases.find((one) => one.id === id);
		return span?.from && span.from <= today && (span.to ?? today) >= today;
	});
	const aimed = active.find(({ target, medicine }) => target !== null && medicine !== null);
	if (isDisplay(run)) return { standing: 'display', why: 'holds more than fish' };
	if (aimed?.target && !aimed.target.includes('flukes') && aimed.target !== 'worms')
		return { standing: 'suspected', why: `treated for ${aimed.target}` };
	if (active.some(treats)) return { standing: 'treated', why: 'no sign on record' };
	if (active.some(({ kind }) => kind === 'settle') || !hasBeenTreated(run, plan, today))
		return { standing: 'new', why: 'nothing treated yet' };
	return { standing: 'watched', why: 'treated, no sign on record' };
}

/** Logged within the days that speak, or brought along by fish that came within them. */
function signsOf(run: Run, recent: readonly Fact[], nowMs: number): string[] {
	const logged = recent.flatMap((fact) => (fact.kind === 'observation' ? fact.signs : []));
	const brought = run.lots.flatMap(({ arrived, signs }) =>
		arrived && nowMs - Date.parse(arrived) < SPEAKS_DAYS * MS_PER_DAY ? signs : []
	);
	return [...new Set([...brought, ...logged])].filter((sign) => sign !== 'none');
}

const isDisplay = ({ tank }: Run) => tank.holds.some((one) => one !== 'fish');

const treats = ({ kind }: Phase) =>
	['hold', 'pulse', 'daily', 'dip', 'low-salinity', 'transfer', 'feed', 'washout'].includes(kind);

const hasBeenTreated = (run: Run, plan: Plan, today: string) =>
	run.phases.some(
		(phase) => treats(phase) && plan.phases.some(({ id, from }) => id === phase.id && from && from < today)
	);

/** What is done between two tanks, and whether it is known or a habit. */
export interface Hygiene {
	text: string;
	source: string;
}

/** Between two tanks of a round: clean hands and own tools; before and after a sick one, more. */
export function hygieneBetween(before: Standing, next: Standing): Hygiene {
	const last = next === 'sick' || next === 'suspected';
	const after = before === 'sick' || before === 'suspected';
	return {
		text: last
			? after
				? 'Wash hands and arms. Own net, hose and cup again: nothing wet goes from one sick tank to another.'
				: 'Suspected and sick tanks come last: wash hands and arms, own net, hose and cup, and no way back to a clean tank today.'
			: 'Wash and dry hands and arms. The next tank has its own net, hose and cup.',
		source: 'common practice, no source'
	};
}

/** After the last tank of a round that ended at a sick one. */
export const hygieneAfter: Hygiene = {
	text: 'Tools of the sick tank: chlorine at 200 mg/L for 10 minutes, rinse, dry for 24 hours, no dechlorinator left on them for the next copper. Never seed a filter from it.',
	source: 'common practice, no source'
};
