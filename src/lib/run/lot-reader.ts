import { groups } from '../formulary/index.ts';
import { readMassG, readMassGPerDay, readMassMgPerDay } from '../units/index.ts';
import { readDay } from './cells/date.ts';
import type { Json, Reader } from './reader.ts';
import type { Lot } from './run.ts';
import { signs } from './vocabulary.ts';

const MOST_FISH = 100_000;

/** Fish that came together. `place` is `lots.<id>`, or where a log entry brings them. */
export function readLot(reader: Reader, place: string, lot: Json, id: string): Lot {
	const at = (key: string) => `${place}.${key}`;
	return {
		id,
		what: reader.text(at('what'), lot.what) ?? '',
		group: reader.word(at('group'), lot.group, groups) ?? 'other',
		count: reader.whole(at('count'), lot.count, 0, MOST_FISH, 'a whole number of fish') ?? 1,
		massG: reader.cell(at('mass'), lot.mass, readMassG),
		feedGPerDay: reader.cell(at('feed'), lot.feed, readMassGPerDay),
		protein: reader.number(at('protein'), lot.protein, 0, 1, 'a share of the feed from 0 to 1, such as 0.09'),
		tanMgPerDay: reader.cell(at('tan'), lot.tan, readMassMgPerDay),
		arrived: reader.cell(at('arrived'), lot.arrived, (text) => readDay(text, reader.today)),
		signs: reader.words(at('signs'), lot.signs, signs)
	};
}
