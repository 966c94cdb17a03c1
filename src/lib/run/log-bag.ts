import { readConcentration, readMassG, readTemperatureC } from '../units/index.ts';
import { readSalinityCell } from '../water/index.ts';
import type { Line } from './log-line.ts';
import type { Json } from './reader.ts';

/** What the water of a shipping bag read before it was opened, and what was in it. It never was the tank's water. */
export interface Bag {
	temperatureC?: number;
	salinityPpt?: number;
	pH?: number;
	/** on the scale `as` says */
	ammoniaMgPerL?: number;
	/** absent: `tan` */
	as?: BagForm;
	count?: number;
	massG?: number;
}

/** Scales of an ammonia kit; total ones, since the bag's pH is its own. */
export const bagForms = ['tan', 'nh3-total'] as const;
export type BagForm = (typeof bagForms)[number];

/** The cells of a bag; every one may be missing. */
export function readBag(line: Line): Bag | null {
	if (!line.has('bag')) return null;
	const { reader } = line;
	const bag: Json = reader.object(line.at('bag'), line.entry.bag);
	const at = (key: string) => line.at(`bag.${key}`);
	const found = {
		temperatureC: reader.cell(at('temperature'), bag.temperature, readTemperatureC),
		salinityPpt: reader.cell(at('salinity'), bag.salinity, readSalinityCell),
		pH: reader.number(at('pH'), bag.pH, 4, 10, 'a pH such as 6.8'),
		ammoniaMgPerL: reader.cell(at('ammonia'), bag.ammonia, (text) => readConcentration(text, 'mass')),
		as: reader.word(at('as'), bag.as, bagForms),
		count: reader.whole(at('count'), bag.count, 0, 100_000, 'how many came'),
		massG: reader.cell(at('mass'), bag.mass, readMassG)
	};
	return Object.fromEntries(Object.entries(found).filter(([, value]) => value !== null));
}
