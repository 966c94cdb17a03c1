import { readDay } from './cells/date.ts';
import { printStart } from './cells/start.ts';
import { isDay } from './days.ts';
import type { LogEntry } from './log.ts';
import { tooMany, tooManyTrouble } from './log-counts.ts';
import { knownOf, taskId, type Known } from './log-known.ts';
import { readEntry } from './log-reader.ts';
import { readLot } from './lot-reader.ts';
import { moveOf } from './move.ts';
import { readMedicine } from './medicine-reader.ts';
import { readPhase } from './phase-reader.ts';
import { expectedId, rowId, rowName } from './place.ts';
import { isJson, Reader, type Json } from './reader.ts';
import type { Day, Phase, Run } from './run.ts';
import { runIdOf } from './run-id.ts';
import { readLimits, readSource, readTank } from './tank-reader.ts';

const defaultService = '08:00';
const defaultZone = 'UTC';
const clock = /^([01]\d|2[0-3]):[0-5]\d$/;

/**
 * A run from a plan document, as far as it can be read: what cannot is in `problems`, with its place, and counts as
 * absent. Never throws on JSON. `today` gives dates without a year theirs; null (a plan file) asks for the year.
 */
export function readRun(document: unknown, { today }: { today: Day | null }): Run {
	const reader = new Reader(today);
	const plan = reader.object('', document);
	const medicines = rowsOf(reader, 'medicines', plan.medicines).map(({ id, row, place }) =>
		readMedicine(reader, place, row, id)
	);
	const lotRows = rowsOf(reader, 'lots', plan.lots);
	const lots = lotRows.map(({ id, row, place }) => readLot(reader, place, row, id));
	const phaseRows = rowsOf(reader, 'phases', plan.phases);
	const ids = phaseRows.map(({ id }) => id);
	const name = reader.text('name', plan.name) ?? '';
	const log = reader.list('log', plan.log);
	const services = servicesOf(reader, plan.service);
	const tank = readTank(reader, 'tank', plan.tank);
	const spare = reader.absent(plan.spare) ? null : readTank(reader, 'spare', plan.spare);
	const known = knownOf({ lots, medicines, phases: phaseRows, tanks: [tank, spare], log });
	const facts = log.flatMap((entry, i) => entryAt(reader, i, entry, known));
	// what stands in a log keeps its say when the lot is written anew
	if (today === null) {
		const counted = lots.filter((_, n) => !reader.absent(lotRows[n]?.row.count));
		for (const one of tooMany(counted, facts))
			reader.report(`log.${one.entry}.${one.key}`, tooManyTrouble(one));
	}
	return {
		id: reader.text('id', plan.id) ?? runIdOf(name),
		name,
		timeZone: zoneOf(reader, plan.timeZone),
		services,
		tank,
		spare,
		source: readSource(reader, plan.source),
		limits: readLimits(reader, plan.limits),
		lots,
		medicines,
		phases: withoutCycles(
			reader,
			phaseRows.map(({ id, row, place }) => readPhase(reader, place, row, id, ids, medicines))
		),
		away: reader
			.list('away', plan.away)
			.flatMap((day, i) => reader.cell(`away.${i}`, day, (text) => readDay(text, today)) ?? []),
		hands: handsOf(reader, plan.hands),
		moves: movesOf(reader, plan.moves, ids, services),
		log: facts,
		problems: reader.problems
	};
}

interface Row {
	id: string;
	row: Json;
	place: string;
}

/** The rows of a list with ids; one without an id of its own is left out and named. */
function rowsOf(reader: Reader, list: 'lots' | 'medicines' | 'phases', value: unknown): Row[] {
	const seen = new Set<string>();
	return reader.list(list, value).flatMap((row, i) => {
		const place = `${list}.${rowName(row, i)}`;
		if (!isJson(row)) return reader.refuse(place, row, 'object', 'a row with named cells') ?? [];
		const { id } = row;
		if (typeof id !== 'string' || !rowId.test(id))
			return reader.refuse(`${place}.id`, id ?? '', 'id', expectedId) ?? [];
		if (seen.has(id)) return reader.refuse(`${place}.id`, id, 'duplicate-id', 'an id of its own') ?? [];
		seen.add(id);
		return [{ id, row, place }];
	});
}

function zoneOf(reader: Reader, value: unknown): string {
	const zone = reader.text('timeZone', value ?? '');
	if (zone && isZone(zone)) return zone;
	reader.refuse('timeZone', value ?? '', 'zone', 'an IANA time zone such as America/Chicago');
	return defaultZone;
}

/** Asking costs as much as reading the rest of a run: a zone that was found stays known. There are some 600. */
const zones = new Set<string>();

function isZone(zone: string): boolean {
	if (zones.has(zone)) return true;
	if (!/^[A-Za-z][A-Za-z0-9_+/-]*$/.test(zone)) return false;
	try {
		new Intl.DateTimeFormat('en', { timeZone: zone });
		zones.add(zone);
		return true;
	} catch {
		return false;
	}
}

function servicesOf(reader: Reader, value: unknown): string[] {
	const texts = typeof value === 'string' ? [value] : reader.list('service', value);
	const good = texts.filter((time, i): time is string => {
		if (typeof time === 'string' && clock.test(time)) return true;
		reader.refuse(texts.length > 1 ? `service.${i}` : 'service', time, 'time', 'a time of day such as 08:00');
		return false;
	});
	return good.length ? [...new Set(good)].sort() : [defaultService];
}

function handsOf(reader: Reader, value: unknown): Run['hands'] {
	const hands: Run['hands'] = {};
	for (const [day, who] of Object.entries(reader.object('hands', value))) {
		if (!isDay(day)) reader.refuse(`hands.${day}`, day, 'date', 'a date such as 2026-12-11');
		const name = reader.text(`hands.${day}`, who);
		if (isDay(day) && name) hands[day] = name;
	}
	return hands;
}

/** Where jobs were put. A time that is the first service of the day is said by the day alone. */
function movesOf(
	reader: Reader,
	value: unknown,
	phases: readonly string[],
	[first]: readonly string[]
): Run['moves'] {
	const moves: Run['moves'] = {};
	const expected = 'the id of a task of a phase of this run, such as copper/change/5';
	for (const [task, to] of Object.entries(reader.object('moves', value))) {
		const place = `moves.${task}`;
		const phase = taskId.exec(task)?.[1];
		if (phase === undefined || !phases.includes(phase)) reader.refuse(place, task, 'no-such-task', expected);
		else {
			const move = typeof to === 'string' ? moveOf(to) : null;
			if (move) moves[task] = move.time === first ? { ...move, time: null } : move;
			else reader.refuse(place, to, 'date', 'a date such as 2026-12-05, or with its time 2026-12-05T18:30');
		}
	}
	return moves;
}

const waitsFor = ({ starts }: Phase): string | null =>
	starts === null || 'on' in starts ? null : 'after' in starts ? starts.after : starts.with;

/** A phase that waits for itself, through others or not, is told so and counts as having no start. */
function withoutCycles(reader: Reader, phases: Phase[]): Phase[] {
	const byId = new Map(phases.map((phase) => [phase.id, phase]));
	const checked = new Set<string>();
	const circular = new Map<string, string>();
	for (const { id } of phases) {
		const chain: string[] = [];
		let at: string | null = id;
		while (at !== null && !checked.has(at)) {
			checked.add(at);
			chain.push(at);
			const phase = byId.get(at);
			at = phase ? waitsFor(phase) : null;
		}
		const ring = at === null ? [] : chain.slice(Math.max(0, chain.indexOf(at)));
		if (at !== null && ring[0] === at)
			for (const member of ring) circular.set(member, [...ring, at].join(', '));
	}
	return phases.map((phase) => {
		const ring = circular.get(phase.id);
		if (ring === undefined) return phase;
		const expected = `a start that does not wait for itself: ${ring}`;
		reader.report(`phases.${phase.id}.starts`, { code: 'cycle', seen: writtenStart(phase), expected });
		return { ...phase, starts: null };
	});
}

const writtenStart = ({ starts }: Phase): string =>
	starts === null ? '' : printStart(starts, { form: 'file', rows: [] });

function entryAt(reader: Reader, i: number, entry: unknown, known: Known): LogEntry[] {
	const place = `log.${rowName(entry, i)}`;
	if (!isJson(entry)) return reader.refuse(place, entry, 'object', 'an entry with named cells') ?? [];
	const read = readEntry(reader, place, entry, known);
	return read ? [read] : [];
}
