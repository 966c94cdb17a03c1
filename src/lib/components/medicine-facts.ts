import {
	groupRows,
	parasites,
	targets,
	type Band,
	type Group,
	type Mark,
	type MedicineRow,
	type MethodRow,
	type Sourced,
	type UseRow
} from '$lib/formulary';
import { displayIn, print } from '$lib/units';

/** One line of a medicine's entry: what it is called, what it says, how it is known. */
export interface Fact {
	term: string;
	text: string;
	mark: Mark;
	source: string;
	note?: string;
}

export interface FactGroup {
	title: string;
	facts: readonly Fact[];
}

const reaches = 'Reaches';
const doesNotReach = 'Does not reach';

/** What the four marks mean, in the words of the key on top of the page. */
export const markWords: Readonly<Record<Mark, string>> = {
	P: 'published, the source is named',
	CP: 'common practice, no source',
	J: 'judgment, no source',
	M: 'from memory, not looked up'
};

const plural = (count: number, one: string) => `${print(count, '')} ${one}${count === 1 ? '' : 's'}`;
const span = ({ low, high }: Band) =>
	low === high
		? print(low, '')
		: low === 0
			? `up to ${print(high, '')}`
			: `${print(low, '')} to ${print(high, '')}`;
const degrees = (celsius: number) => displayIn('metric', 'temperature', celsius);
const yesNo = (yes: boolean, ifSo: string, ifNot: string) => (yes ? ifSo : ifNot);

const decimalsOf = (value: number) => (String(value).split('.')[1] ?? '').length;

/** A level or a band of levels in the unit of its row: `0.15 to 0.20 mg/L`. */
export function levelWords(level: number | Band, unit: MedicineRow['unit'] | 'ppt'): string {
	const { low, high } = typeof level === 'number' ? { low: level, high: level } : level;
	if (low === high) return print(low, unit);
	if (low === 0) return `up to ${print(high, unit)}`;
	const decimals = Math.max(decimalsOf(low), decimalsOf(high));
	return `${print(low, '', decimals)} to ${print(high, unit, decimals)}`;
}

/** `half gone in 8.4 h` */
function halfLifeWords(days: number | null): string {
	return days === null ? 'none' : `half in ${displayIn('metric', 'duration', days)}`;
}

function courseWords({ days, doses, gapDays }: { days?: number; doses?: number; gapDays?: number }): string {
	const parts = [
		days === undefined ? '' : plural(days, 'day'),
		doses === undefined ? '' : plural(doses, 'dose'),
		gapDays === undefined ? '' : `${plural(gapDays, 'day')} apart`
	];
	return parts.filter(Boolean).join(', ');
}

const groupNames = (list: readonly Group[]) => list.map((group) => groupRows[group].name).join(', ');

const fact = <T>(term: string, sourced: Sourced<T> | null, say: (value: T) => string): Fact[] =>
	sourced === null
		? []
		: [
				{
					term,
					text: say(sourced.value),
					mark: sourced.mark,
					source: sourced.source,
					...(sourced.note === undefined ? {} : { note: sourced.note })
				}
			];

const itself = (text: string) => text;

function useFacts(row: MedicineRow): Fact[] {
	const level = (value: number) => levelWords(value, row.unit);
	return [
		...fact('How to give it', row.howToGive, itself),
		...fact(
			'Dissolves',
			row.dissolvesGPerL,
			(grams) => `badly: at most ${print(grams, 'g')} stirred into a litre`
		),
		...fact('Course', row.course, courseWords),
		...fact('Aim', row.aim, level),
		...fact('Most in one service', row.raisePerService, (most) => `raises by ${level(most)}`),
		...fact('Rises over', row.rampDays, (days) => plural(days, 'day')),
		...fact(
			'With velvet suspected',
			row.hurry,
			({ steps, hoursApart }) => `${plural(steps, 'step')}, ${hoursApart} h apart`
		),
		...fact('A dose acts', row.contactHours, (hours) =>
			hours === 0 ? 'in the dip alone' : `${print(hours, 'h')}, undisturbed`
		),
		...fact('A test vouches for', row.testWithinHours, (hours) => print(hours, 'h')),
		...bathFacts(row)
	];
}

function bathFacts({ bath, unit }: MedicineRow): Fact[] {
	if (bath === null) return [];
	return [
		...fact('Short bath, at most', bath.ceiling, (most) => levelWords(most, unit)),
		...fact(
			'Short bath, warm water',
			bath.warm,
			({ aboveC, ceiling }) => `${levelWords(ceiling, unit)} above ${degrees(aboveC)}`
		),
		...fact('Short bath lasts', bath.minutes, (minutes) => `${span(minutes)} min, never longer`)
	];
}

const removers: Readonly<Record<MedicineRow['removedBy']['value'][number], string>> = {
	carbon: 'carbon',
	resin: 'resin',
	uv: 'UV',
	skimmer: 'skimmer',
	ozone: 'ozone',
	light: 'light',
	calcareous: 'calcareous stone and sand',
	change: 'water changes'
};

function tankFacts(row: MedicineRow): Fact[] {
	return [
		...fact('Lost by itself', row.loss, ({ leastHalfLifeDays, greatestHalfLifeDays }) =>
			leastHalfLifeDays === greatestHalfLifeDays
				? halfLifeWords(leastHalfLifeDays)
				: `least ${halfLifeWords(leastHalfLifeDays)}, greatest ${halfLifeWords(greatestHalfLifeDays)}`
		),
		...fact(
			'Taken out by',
			row.removedBy,
			(list) => list.map((one) => removers[one]).join(', ') || 'nothing'
		),
		...fact(
			'Carbon or resin removes',
			row.removalLPerDay,
			(litres) => `${print(litres, 'L/d')} of its water`
		),
		...fact('Filter bacteria', row.harmsFilter, (harm) => yesNo(harm, 'harmed', 'spared at the usual level')),
		...fact(
			'Oxygen',
			row.oxygenDemand,
			({ mgPerLPerHour, perLevel }) =>
				`takes ${print(mgPerLPerHour, 'mg/L', 2)} an hour per ${levelWords(perLevel, row.unit)}: always aerate`
		),
		...fact('Light', row.lightSensitive, (harm) => yesNo(harm, 'destroys it: lights off', 'no matter')),
		...fact('Foam', row.foams, (foams) => yesNo(foams, 'foams: coarse bubbles, skimmer off', 'none')),
		...fact('Temperature', row.temperatureC, ({ max }) =>
			max === null ? 'no bound' : `not above ${degrees(max)}`
		),
		...fact('Salinity', row.salinityPpt, ({ min }) =>
			min === null ? 'no bound' : `not under ${print(min, 'ppt')}`
		),
		...fact('pH', row.pH, ({ min }) => (min === null ? 'no bound' : `not under ${print(min, '')}`)),
		...fact('Disturbs', row.disturbs, (list) => list.join('; ') || 'no kit')
	];
}

function bearerFacts(row: MedicineRow): Fact[] {
	return [
		...fact('Never for', row.notFor, (list) => groupNames(list) || 'no group named'),
		...fact('Less and slower for', row.sensitive, ({ groups, aim, rampDays }) =>
			[
				groupNames(groups) || 'no group named',
				aim === null ? '' : `aim ${levelWords(aim, row.unit)}`,
				rampDays === null ? '' : `over ${plural(rampDays, 'day')}`
			]
				.filter(Boolean)
				.join('; ')
		),
		...fact('Invertebrates', row.harmsInvertebrates, (harm) => yesNo(harm, 'harmed or killed', 'spared'))
	];
}

type Reaches = Pick<MedicineRow, 'treats' | 'doesNotTreat'>;

const reachFacts = (row: Reaches, column: keyof Reaches): Fact[] =>
	targets.flatMap((target) => fact(parasites[target].name, row[column][target] ?? null, itself));

const noteFacts = (notes: readonly Sourced<string>[]): Fact[] =>
	notes.flatMap((note) => fact('', note, itself));

/** Everything a medicine's row knows, as lines under headings; a heading without lines is left out. */
export const factsOf = (row: MedicineRow): FactGroup[] =>
	[
		{ title: 'Giving it', facts: useFacts(row) },
		{ title: 'In the tank', facts: tankFacts(row) },
		{ title: 'Who bears it', facts: bearerFacts(row) },
		{ title: reaches, facts: reachFacts(row, 'treats') },
		{ title: doesNotReach, facts: reachFacts(row, 'doesNotTreat') },
		{ title: 'Law', facts: fact('', row.legal, itself) },
		{ title: 'To know', facts: noteFacts(row.notes) }
	].filter(({ facts }) => facts.length > 0);

/** The same for a method without a bottle. */
export const methodFacts = (row: MethodRow): FactGroup[] =>
	[
		{
			title: 'Doing it',
			facts: [
				...fact('How', row.howTo, itself),
				...fact('Held at', row.holdPpt, (band) => levelWords(band, 'ppt')),
				...fact('A day counts at', row.creditPpt, (most) => `${print(most, 'ppt')} and less`),
				...fact('Never under', row.stopPpt, (least) => print(least, 'ppt')),
				...fact('Down by', row.downPptPerStep, (most) => `at most ${print(most, 'ppt')} a step`),
				...fact('Down over', row.downOverHours, (hours) => `${span(hours)} h`),
				...fact('Up by', row.upPptPerDay, (most) => `at most ${print(most, 'ppt')} a day`),
				...fact('Course', row.courseDays, (days) => plural(days, 'day')),
				...fact('Moves', row.moves, (moves) => print(moves, '')),
				...fact('Apart', row.hoursApart, (hours) => print(hours, 'h')),
				...fact('Grace', row.graceHours, (hours) => print(hours, 'h')),
				...fact('Starts again after', row.restartHours, (hours) => print(hours, 'h'))
			]
		},
		{ title: reaches, facts: reachFacts(row, 'treats') },
		{ title: doesNotReach, facts: reachFacts(row, 'doesNotTreat') },
		{ title: 'To know', facts: noteFacts(row.notes) }
	].filter(({ facts }) => facts.length > 0);

/** How strong and how long a use on record was: `2 mg/L, 24 h, 14 to 21 days apart`. */
export function useWords(use: UseRow, unit: MedicineRow['unit'] | 'ppt'): string {
	const parts = [
		use.level === null ? '' : levelWords(use.level, unit),
		use.minutes ? `${span(use.minutes)} min` : '',
		use.hours ? `${span(use.hours)} h` : '',
		use.days ? `${span(use.days)} days` : '',
		use.doses ? `${span(use.doses)} times` : '',
		use.gapDays ? `${span(use.gapDays)} days apart` : ''
	];
	return parts.filter(Boolean).join(', ');
}

/** What a search looks through: names, what is said, and the parasites it reaches; never those it fails. */
export function searchText(
	names: readonly string[],
	groups: readonly FactGroup[],
	more: readonly string[]
): string {
	const said = groups
		.filter(({ title }) => title !== doesNotReach)
		.flatMap(({ title, facts }) =>
			facts.flatMap(({ term, text, note, source }) => [
				title === reaches ? term : '',
				text,
				note ?? '',
				source
			])
		);
	return [...names, ...said, ...more].join('\n').toLowerCase();
}

/** Whether every word typed stands somewhere in the text of `searchText`. */
export const matches = (text: string, query: string): boolean =>
	query
		.toLowerCase()
		.split(/\s+/)
		.every((word) => text.includes(word));
