import { readLog } from './log.ts';
import type { Lot, Run } from './run.ts';

/** The fish that are in the tank after everything the log says: joined, left, lost. Masses go with the counts. */
export function presentLots(run: Pick<Run, 'lots' | 'log'>): Lot[] {
	const present = new Map(run.lots.map((lot) => [lot.id, lot]));
	const count = (id: string, change: number) => {
		const lot = present.get(id);
		if (!lot) return;
		const left = Math.max(0, lot.count + change);
		const massG = lot.massG === null ? null : (lot.massG * left) / Math.max(1, lot.count);
		present.set(id, { ...lot, count: left, massG });
	};
	for (const fact of readLog(run.log)) {
		if (fact.kind === 'loss') count(fact.lot, -fact.count);
		if (fact.kind !== 'fish') continue;
		if (fact.lot) present.set(fact.lot.id, fact.lot);
		else count(fact.lotId, fact.count);
	}
	return [...present.values()].filter(({ count: left }) => left > 0);
}
