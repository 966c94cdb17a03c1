import { phaseKinds } from '../run/index.ts';
import type { TypedKey } from './columns.ts';
import { kindText, type Desk } from './table.ts';
import { isBlank } from './rows.ts';
import { medicineText } from './shelf.ts';

/** One offer while a cell is typed: what would be written, and a word about it. */
export interface Offer {
	text: string;
	about?: string;
}

/** What the formulary proposes for a medicine, already written in the sheet's grammar. */
export interface CourseHints {
	level: readonly Offer[];
	lasts: readonly Offer[];
	repeat: readonly Offer[];
}

const fixed: Record<'lasts' | 'level' | 'repeat' | 'change' | 'test', readonly Offer[]> = {
	lasts: ['3 d', '14 d', '28 d', '30 d', '2 doses', '4 moves', 'until clear'].map((text) => ({ text })),
	level: [],
	repeat: ['daily', 'every 2 d', 'every 7 d', 'Mon, Thu', 'ramp 3 d'].map((text) => ({ text })),
	change: [
		{ text: 'auto', about: 'as few changes as keep the water safe' },
		{ text: 'none' },
		{ text: '25% every 3 d' },
		{ text: '30% weekly' },
		{ text: '50% daily' },
		{ text: '50% daily + carbon' },
		{ text: '50% before dose' }
	],
	test: [
		{ text: 'NH3 daily' },
		{ text: 'Cu daily, NH3 daily' },
		{ text: 'Cu daily' },
		{ text: 'NH3 every 2 d' },
		{ text: 'NH3 daily, NO3 weekly, pH weekly' }
	]
};

/** Every kind and every ready course fit; more than this nobody reads. */
const MOST = 24;

function pool(desk: Desk, row: number, key: TypedKey, hints: CourseHints | null): readonly Offer[] {
	if (key === 'kind') {
		const phase = desk.document.phases[row];
		const courses = phase && !isBlank(phase) ? [] : desk.courses;
		return [
			...phaseKinds.map((kind) => ({ text: kindText(kind) })),
			...courses.map(({ name, own }) => ({ text: name, about: own ? 'your course' : 'ready course' }))
		];
	}
	if (key === 'medicine') {
		const own = (desk.document.medicines ?? []).map(({ id }) => ({
			text: medicineText(id, desk.document, desk.shelf),
			about: 'on this run’s shelf'
		}));
		const names = new Set(own.map(({ text }) => text));
		return [...own, ...desk.shelf.filter(({ name }) => !names.has(name)).map(({ name }) => ({ text: name }))];
	}
	if (key === 'starts') {
		const others = desk.document.phases.flatMap((phase, index) =>
			index === row ? [] : [{ number: index + 1, about: kindText(phase.kind) }]
		);
		const near = others.slice().sort((a, b) => Math.abs(a.number - row) - Math.abs(b.number - row));
		return [
			...near.map(({ number, about }) => ({ text: `after ${number}`, about })),
			...near.map(({ number, about }) => ({ text: `with ${number}`, about }))
		];
	}
	if (key === 'lasts' || key === 'level' || key === 'repeat') return [...(hints?.[key] ?? []), ...fixed[key]];
	return fixed[key];
}

/** Offers that fit what has been typed so far: those that begin with it first, then those that hold it. */
export function offers(
	desk: Desk,
	row: number,
	key: TypedKey,
	typed: string,
	hints: CourseHints | null
): Offer[] {
	const wanted = typed.trim().toLowerCase();
	const seen = new Set<string>();
	const all = pool(desk, row, key, hints).filter(({ text }) => !seen.has(text) && seen.add(text));
	const begins = all.filter(({ text }) => text.toLowerCase().startsWith(wanted));
	const contains = all.filter(
		({ text }) => !begins.some((offer) => offer.text === text) && text.toLowerCase().includes(wanted)
	);
	return [...begins, ...contains].slice(0, MOST);
}
