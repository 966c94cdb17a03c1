import { mostWaterL } from './log-amount.ts';
import { isJson, type Json } from './reader.ts';
import type { Lot, Medicine, Tank } from './run.ts';

/** `copper/dose/1`: phase, kind, number; several of one kind in a service carry a word more. */
export const taskId = /^([a-z][a-z0-9-]*)\/([a-z]+)\/(\d+)(\.\w+)?$/;

/** What a log may name: the run's phases, lots (and those that join on the way), medicines and entries. */
export interface Known {
	lots: ReadonlySet<string>;
	/** lots of the run itself, whose ids are taken */
	ownLots: ReadonlySet<string>;
	medicines: readonly Medicine[];
	/** the medicine of each phase, by its id; null: it has none */
	phases: ReadonlyMap<string, string | null>;
	/** the water of the tank, or of the second one where that is larger, litres; null: unknown */
	mostL: number | null;
	entries: ReadonlySet<string>;
}

/** Everything a log of this run may name. */
export function knownOf(run: {
	lots: readonly Lot[];
	medicines: readonly Medicine[];
	phases: readonly { id: string; row: Json }[];
	tanks: readonly (Tank | null)[];
	log: readonly unknown[];
}): Known {
	const ownLots = run.lots.map(({ id }) => id);
	const joining = run.log.flatMap((entry) => idOf(isJson(entry) ? entry.lot : null));
	return {
		lots: new Set([...ownLots, ...joining]),
		ownLots: new Set(ownLots),
		medicines: run.medicines,
		phases: new Map(
			run.phases.map(({ id, row }) => [id, typeof row.medicine === 'string' ? row.medicine : null])
		),
		mostL: mostWaterL(run.tanks),
		entries: new Set(run.log.flatMap(idOf))
	};
}

const idOf = (row: unknown): string[] => (isJson(row) && typeof row.id === 'string' ? [row.id] : []);
