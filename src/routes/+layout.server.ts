import { leastFor, localeOf, mayDo, type Actor } from '$lib/server';
import type { LayoutServerLoad } from './$types';

/** 1 Monday to 7 Sunday; not every engine says. */
function firstWeekdayOf(locale: string): number {
	const told = new Intl.Locale(locale) as Intl.Locale & { getWeekInfo?: () => { firstDay: number } };
	return told.getWeekInfo?.().firstDay ?? 1;
}

/** How far somebody reaches: to look, also to log, or also to change plans; as the table of access says. */
function mayOf(actor: Actor | null): 'look' | 'log' | 'change' {
	const role = actor?.role ?? null;
	if (mayDo(role, leastFor('/api/runs/[id]/edits', 'POST'))) return 'change';
	return mayDo(role, leastFor('/api/runs/[id]/log', 'POST')) ? 'log' : 'look';
}

/** What page and server must agree on before the first paint: the clock, the language, the week's first day, who looks. */
export const load: LayoutServerLoad = ({ request, locals: { actor } }) => {
	const locale = localeOf(request);
	const who = actor && { name: actor.name, role: actor.role, entered: actor.session !== null };
	return {
		now: new Date().toISOString(),
		locale,
		firstWeekday: firstWeekdayOf(locale),
		who,
		may: mayOf(actor)
	};
};
