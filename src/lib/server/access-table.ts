import { reaches, type Role } from './people.ts';

/** Who may: anybody, also without having entered, or at least that role. */
export type Least = 'open' | Role;
type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

/** What a method asks for; a write also says how the audit calls it. */
type Cell = readonly [least: Least] | readonly [least: Least, deed: string];
type Row = Partial<Record<Method, Cell>>;

const look: Cell = ['viewer'];

/**
 * Every route (its folder in `src/routes`) and method against the least role. What is not here is refused to all but a
 * keeper, and a test fails until it is.
 */
export const accessTable: Record<string, Row> = {
	'/': { GET: look },
	'/api/calendars/accounts': { POST: ['keeper', 'joined a calendar server'] },
	'/api/calendars/accounts/[id]': {
		POST: ['keeper', 'synced with a calendar server'],
		DELETE: ['keeper', 'left a calendar server']
	},
	'/api/calendars/file': { GET: look },
	'/api/calendars/look': { POST: ['keeper', 'looked at a calendar server'] },
	'/api/calendars/proposals/[id]': { POST: ['keeper', 'decided on a move made on a phone'] },
	'/api/courses': { GET: look, POST: ['keeper', 'kept a course'] },
	'/api/courses/[id]': { DELETE: ['keeper', 'dropped a course'] },
	'/api/demo': { POST: ['keeper', 'opened the demo'] },
	'/api/export': { GET: look },
	'/api/feeds': { GET: look, POST: ['keeper', 'made a calendar address'] },
	'/api/feeds/[id]': {
		POST: ['keeper', 'renewed a calendar address'],
		DELETE: ['keeper', 'ended a calendar address']
	},
	'/api/import': { POST: ['keeper', 'imported'] },
	'/api/photos/[id]': { GET: look, PUT: ['helper', 'sent a picture'] },
	'/api/runs': { GET: look, POST: ['keeper', 'made a run'] },
	'/api/runs/[id]': { GET: look, PATCH: ['keeper', 'took a run off the lists or put it back'] },
	'/api/runs/[id]/edits': { GET: look, POST: ['keeper', 'changed a run'] },
	'/api/runs/[id]/export': { GET: look },
	'/api/runs/[id]/history': { GET: look },
	'/api/runs/[id]/log': { GET: look, POST: ['helper', 'logged'] },
	'/api/runs/[id]/repairs': { GET: look },
	// a way that moves written days asks for a keeper: the route looks at what it moves
	'/api/runs/[id]/slips': { GET: look, POST: ['helper', 'took a way to go on'] },
	'/api/runs/[id]/restore': { POST: ['keeper', 'put an earlier state of a run back'] },
	'/api/runs/[id]/versions/[version]': { GET: look },
	'/api/today': { GET: look },
	'/calendars': { GET: look },
	'/days': { GET: look },
	// by the secret in its address, which a calendar program cannot add a passphrase to
	'/feed/[secret].ics': { GET: ['open'] },
	'/enter': { GET: ['open'], POST: ['open', 'entered or left'] },
	'/log': { GET: look },
	'/medicines': { GET: look },
	'/more': { GET: look },
	'/new': { GET: look },
	'/people': { GET: ['keeper'], POST: ['keeper', 'changed who may enter'] },
	'/people/me': { GET: look, POST: ['viewer', 'changed how they enter'] },
	'/runs': { GET: look },
	'/runs/[id]': { GET: look },
	'/runs/[id]/arrival': { GET: look },
	'/runs/[id]/history': { GET: look, POST: ['keeper', 'put an earlier state of a run back'] },
	'/runs/[id]/ledger': { GET: look },
	'/runs/[id]/log': { GET: look },
	'/runs/[id]/slips': { GET: look },
	'/today': { GET: look },
	'/water': { GET: look }
};

const same: Record<string, Method> = { HEAD: 'GET', OPTIONS: 'GET' };

function cellOf(route: string | null, method: string): Cell | undefined {
	const row = route !== null && Object.hasOwn(accessTable, route) ? accessTable[route] : undefined;
	return row?.[same[method] ?? (method as Method)];
}

/** What a request asks for; an address that leads nowhere asks for somebody who has entered. */
export function leastFor(route: string | null, method: string): Least {
	if (route === null) return 'viewer';
	return cellOf(route, method)?.[0] ?? 'keeper';
}

/** How the audit calls a write. */
export const deedFor = (route: string | null, method: string): string =>
	cellOf(route, method)?.[1] ?? `${method} ${route ?? 'nowhere'}`;

/** True when somebody of this role, or nobody (null), may. */
export const mayDo = (role: Role | null, least: Least): boolean =>
	least === 'open' || (role !== null && reaches(role, least));
