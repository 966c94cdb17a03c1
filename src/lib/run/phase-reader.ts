import { targets } from '../formulary/index.ts';
import {
	readConcentration,
	readSalinityPptPerDay,
	readVolumeL,
	unreadable,
	type Read
} from '../units/index.ts';
import { readChange } from './cells/change.ts';
import type { CellContext } from './cells/context.ts';
import { readLasts } from './cells/lasts.ts';
import { readLevel } from './cells/level.ts';
import { readRepeats } from './cells/repeat.ts';
import { readStart } from './cells/start.ts';
import { readTests } from './cells/test.ts';
import { countedOf } from './medicine-reader.ts';
import type { Json, Reader } from './reader.ts';
import type { Medicine, Phase } from './run.ts';
import { phaseKinds } from './vocabulary.ts';

/** One row of the sheet. */
export function readPhase(
	reader: Reader,
	place: string,
	row: Json,
	id: string,
	rows: readonly string[],
	medicines: readonly Medicine[]
): Phase {
	const at = (key: string) => `${place}.${key}`;
	const cell = <T>(key: string, grammar: (text: string) => Read<T>) =>
		reader.cell(at(key), row[key], grammar);
	const kind = reader.word(at('kind'), row.kind, phaseKinds);
	const medicine = cell('medicine', (text) => bottleOf(text, medicines));
	const context: CellContext = {
		rows,
		medicines: medicines.map((one) => one.id),
		counted: medicine ? countedOf(medicine.active) : 'mass',
		kind,
		today: reader.today
	};
	const repeats = cell('repeat', readRepeats);
	return {
		id,
		kind: kind ?? 'observe',
		medicine: medicine?.id ?? null,
		starts: cell('starts', (text) => readStart(text, context)),
		lasts: cell('lasts', (text) => readLasts(text, context)),
		level: cell('level', (text) => readLevel(text, context)),
		aim: cell('aim', (text) => readConcentration(text, context.counted)),
		repeat: repeats?.repeat ?? null,
		rampDays: repeats?.rampDays ?? null,
		change: cell('change', readChange),
		test: cell('test', (text) => readTests(text, context)) ?? [],
		carbon: reader.flag(at('carbon'), row.carbon),
		resin: reader.flag(at('resin'), row.resin),
		target: reader.word(at('target'), row.target, targets),
		bathL: cell('bath', readVolumeL),
		risePptPerDay: cell('rise', rise)
	};
}

function rise(text: string): Read<number> {
	const perDay = readSalinityPptPerDay(text);
	return perDay.ok && perDay.value <= 0
		? unreadable('out-of-range', text, 'a rise over nothing, such as 2 ppt/d')
		: perDay;
}

function bottleOf(text: string, medicines: readonly Medicine[]): Read<Medicine> {
	const found = medicines.find(({ id }) => id === text.trim());
	return found
		? { ok: true, value: found }
		: unreadable(
				'no-such-medicine',
				text,
				medicines.length
					? `the id of a medicine of this run: ${medicines.map(({ id }) => id).join(', ')}`
					: 'the id of a medicine of this run, which has none'
			);
}
