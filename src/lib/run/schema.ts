import { z } from 'zod';
import { actives, groups, targets } from '../formulary/index.ts';
import { bagForms } from './log-bag.ts';
import {
	aerations,
	appetites,
	changeSources,
	conditioners,
	equipment,
	inhabitants,
	lightings,
	phaseKinds,
	readingForms,
	signs,
	substrates,
	takens
} from './vocabulary.ts';

/** The shape of a `lazaret-plan/1` file. What the texts in it mean is the cell grammar's business. */
const cell = (about: string) => z.string().max(200).meta({ description: about });
const id = () => z.string().regex(/^[a-z][a-z0-9-]{0,63}$/);
const flag = () => z.boolean();
const numberOrText = () => z.union([z.number(), z.string().max(40)]);

const tank = () =>
	z.strictObject({
		name: cell('what the keeper calls it').optional(),
		net: cell('true water volume, "112 L"').optional(),
		gross: cell('volume of the glass, "128 L"').optional(),
		temperature: cell('"26 C"').optional(),
		salinity: cell('"34 ppt" or "1.025 (25C/25C)"').optional(),
		pH: numberOrText().optional(),
		filterClears: cell('water cleared of ammonia, "40 L/d"').optional(),
		ammonia: cell('as TAN, mg/L N').optional(),
		nitrate: cell('as NO3').optional(),
		evaporates: cell('"1.5 L/d"').optional(),
		aeration: z.enum(aerations).optional(),
		carbon: flag().optional(),
		resin: flag().optional(),
		uv: flag().optional(),
		skimmer: flag().optional(),
		ozone: flag().optional(),
		substrate: z.enum(substrates).optional(),
		holds: z.array(z.enum(inhabitants)).max(8).optional(),
		lights: z.enum(lightings).optional(),
		heater: z.strictObject({ holdsWithin: cell('"1 C"').optional() }).optional(),
		conditioner: z.enum(conditioners).optional(),
		minutes: numberOrText().optional(),
		lid: flag().optional()
	});

const source = () =>
	z.strictObject({
		name: cell('what it is').optional(),
		ammonia: cell('as TAN, mg/L N').optional(),
		nitrate: cell('as NO3').optional(),
		salinity: cell('"34 ppt"').optional(),
		temperature: cell('"26 C"').optional(),
		pH: numberOrText().optional(),
		volume: cell('litres ready to use').optional(),
		mixed: flag().optional()
	});

const lot = () =>
	z.strictObject({
		id: id(),
		what: cell('the fish').optional(),
		group: z.enum(groups).optional(),
		count: numberOrText().optional(),
		mass: cell('of all of them, "64 g"').optional(),
		feed: cell('"1.6 g/d"').optional(),
		protein: numberOrText().optional(),
		tan: cell('stated production, "60 mg/d" N').optional(),
		arrived: cell('a day').optional(),
		signs: z.array(z.enum(signs)).max(40).optional()
	});

const medicine = () =>
	z.strictObject({
		id: id(),
		active: z.enum(actives),
		strength: cell('"2 mg/mL", "1 g/g", "1 mL/mL"').optional(),
		measure: cell('smallest step, "0.1 mL"').optional(),
		level: cell('own window').optional(),
		ceiling: cell('own ceiling').optional(),
		halfLife: cell('a duration or "none"').optional(),
		gap: cell('between doses, "7 d"').optional(),
		course: cell('"28 d"').optional(),
		contact: cell('how long a dose acts, "30 h"').optional(),
		prescribed: flag().optional()
	});

const phase = () =>
	z.strictObject({
		id: id(),
		kind: z.enum(phaseKinds),
		medicine: cell('id of a medicine').optional(),
		starts: cell('"on 2026-11-27", "after settle + 1 d", "with copper + 2 d"').optional(),
		lasts: cell('"14 d", "2 doses", "4 moves", "45 min", "until clear", "until 2027-01-03"').optional(),
		level: cell('"0.15-0.20 mg/L", "16 ppt"').optional(),
		aim: cell('"0.18 mg/L"').optional(),
		repeat: cell('"every 7 d", "daily", "Mon, Thu", "ramp 2 d", "RRULE:..."').optional(),
		change: cell('"auto", "25% every 3 d", "50% before dose", "none"').optional(),
		test: cell('"Cu daily, NO3 weekly"').optional(),
		target: z.enum(targets).optional(),
		carbon: flag().optional(),
		resin: flag().optional(),
		bath: cell('volume of a dip').optional(),
		rise: cell('"2 ppt/d"').optional()
	});

const head = () => ({
	id: z.string().min(1).max(100),
	at: cell('an instant with Z or an offset'),
	by: cell('who').optional(),
	note: z.string().max(4000).optional()
});

/** A shipping bag, read before it was opened. */
const bag = () =>
	z.strictObject({
		temperature: cell('"24 C"').optional(),
		salinity: cell('"27 ppt"').optional(),
		pH: numberOrText().optional(),
		ammonia: cell('"8 mg/L"').optional(),
		as: z.enum(bagForms).optional(),
		count: numberOrText().optional(),
		mass: cell('"64 g"').optional()
	});

/** The cells of each kind of entry beside its head. */
const bodies = () => ({
	done: { task: cell('task id'), amount: cell('only if other than planned').optional() },
	missed: { task: cell('task id'), reason: cell('why').optional() },
	reading: {
		task: cell('task id').optional(),
		what: cell('NH3, Cu, ... or a medicine'),
		value: numberOrText(),
		as: z.enum(readingForms).optional()
	},
	observation: {
		task: cell('task id').optional(),
		lot: id().optional(),
		signs: z.array(z.enum(signs)).max(40).optional(),
		appetite: z.enum(appetites).optional(),
		breathsPerMinute: numberOrText().optional(),
		photo: z.string().min(1).max(64).optional(),
		bag: bag().optional()
	},
	loss: { lot: id(), count: numberOrText() },
	fish: { lot: z.union([lot(), id()]), count: numberOrText().optional(), restart: flag().optional() },
	change: {
		litres: cell('"30 L"').optional(),
		fraction: numberOrText().optional(),
		source: z.enum(changeSources).optional()
	},
	dose: { medicine: id(), amount: cell('"2.0 mL"') },
	equipment: { what: z.enum(equipment), on: flag() },
	topoff: { litres: cell('"1 L"') },
	choice: { task: cell('task id'), taken: z.enum(takens) }
});

/** An entry that says what happened: one strict shape per kind. `leaves` are the keys of the head it may do without. */
function facts(leaves: { id?: true; at?: true }) {
	const shapes = bodies();
	const kinds = Object.keys(shapes) as (keyof typeof shapes)[];
	return kinds.map((kind) => {
		const whole = z.strictObject({ ...head(), kind: z.literal(kind), ...shapes[kind] });
		return leaves.id || leaves.at ? whole.partial(leaves) : whole;
	});
}

type FactShape = ReturnType<typeof facts>[number];
const oneOf = <T extends FactShape>(shapes: T[]) => z.discriminatedUnion('kind', shapes as [T, ...T[]]);

const entry = () => {
	const correct = z.strictObject({
		...head(),
		kind: z.literal('correct'),
		entry: z.string().min(1).max(100),
		as: oneOf(facts({ id: true, at: true })).optional(),
		void: flag().optional()
	});
	return z.discriminatedUnion('kind', [correct, ...facts({})]);
};

/** Largest numbers of rows a file may have. */
export const mostRows = { phases: 500, lots: 100, medicines: 50, log: 20_000 } as const;

const file = () =>
	z.strictObject({
		$schema: z.string().max(400).optional(),
		format: z.literal('lazaret-plan/1'),
		id: z.string().min(1).max(100).optional(),
		name: z.string().max(200).optional(),
		timeZone: cell('IANA zone'),
		service: z.union([cell('"08:00"'), z.array(cell('"08:00"')).min(1).max(12)]).optional(),
		tank: tank().optional(),
		spare: tank().optional(),
		source: source().optional(),
		limits: z.strictObject({ nh3: cell('NH3-N').optional(), nitrate: cell('NO3').optional() }).optional(),
		lots: z.array(lot()).max(mostRows.lots).optional(),
		medicines: z.array(medicine()).max(mostRows.medicines).optional(),
		phases: z.array(phase()).max(mostRows.phases).optional(),
		away: z.array(cell('a day')).max(1000).optional(),
		hands: z.record(z.string().max(10), cell('who can come on an away day')).optional(),
		moves: z
			.record(z.string().max(120), cell('a day, or a day and a local time: "2026-12-05", "2026-12-05T18:30"'))
			.optional(),
		log: z.array(entry()).max(mostRows.log).optional()
	});

/** A `lazaret-plan/1` document. */
export type PlanDocument = z.infer<ReturnType<typeof file>>;

let made: ReturnType<typeof file> | undefined;

/** The shape of a whole file. Made on the first call, so that a page that reads no files carries no zod. */
export const planSchema = (): ReturnType<typeof file> => (made ??= file());

/** The published JSON Schema, as text. */
export function planJsonSchema(): string {
	const about = {
		title: 'lazaret-plan/1',
		description: 'A quarantine run: tank, fish, medicines, phases and log.'
	};
	const schema = z.toJSONSchema(planSchema(), { io: 'input' });
	return `${JSON.stringify({ ...schema, ...about }, null, '\t')}\n`;
}
