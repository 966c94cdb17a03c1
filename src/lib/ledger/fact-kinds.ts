import { groupRows } from '../formulary/index.ts';
import { appetites, changeSources, equipment, type LogKind } from '../run/index.ts';

/** How a field is filled in. `text` takes a unit where the keeper wants one. */
export type FieldForm =
	'text' | 'lines' | 'choice' | 'measure' | 'form' | 'signs' | 'lot' | 'medicine' | 'task' | 'flag' | 'photo';

export interface FactField {
	/** key of the log entry */
	key: string;
	name: string;
	form: FieldForm;
	/** may stay empty */
	optional?: true;
	/** an example of what is expected */
	example?: string;
	choices?: readonly { value: string; name: string }[];
	/** stands in the lot that joins, not in the entry itself */
	ofLot?: true;
}

/** What a keeper can say happened. `fish` is two things to say: fish come, fish go. */
export type FactKind = Exclude<LogKind, 'correct' | 'choice' | 'fish'> | 'joins' | 'leaves';

export interface FactKindRow {
	kind: FactKind;
	/** the kind the log writes */
	writes: LogKind;
	name: string;
	about: string;
	fields: readonly FactField[];
}

const named = (words: readonly string[], names: Record<string, string> = {}) =>
	words.map((value) => ({ value, name: names[value] ?? value }));

const lot = (name: string): FactField => ({ key: 'lot', name, form: 'lot' });
const joining = (key: string, name: string, more: Partial<FactField> = {}): FactField => ({
	key,
	name,
	form: 'text',
	ofLot: true,
	...more
});

/** Every kind of fact with its fields, in the order a keeper reaches for them. */
export const factKinds: readonly FactKindRow[] = [
	{
		kind: 'reading',
		writes: 'reading',
		name: 'Reading',
		about: 'What a kit or probe showed.',
		fields: [
			{ key: 'what', name: 'What', form: 'measure' },
			{ key: 'value', name: 'Value with its unit', form: 'text', example: '0.17 mg/L' },
			{ key: 'as', name: 'The kit counts', form: 'form', optional: true }
		]
	},
	{
		kind: 'observation',
		writes: 'observation',
		name: 'Look at the fish',
		about: 'Signs, appetite, breathing. Any sign sets the watch clock back to zero.',
		fields: [
			{ key: 'lot', name: 'Which fish', form: 'lot', optional: true },
			{ key: 'signs', name: 'Signs', form: 'signs', optional: true },
			{
				key: 'appetite',
				name: 'Food was',
				form: 'choice',
				optional: true,
				choices: named(appetites, { picked: 'picked at' })
			},
			{ key: 'breathsPerMinute', name: 'Breaths a minute', form: 'text', optional: true, example: '80' },
			{ key: 'photo', name: 'Photo', form: 'photo', optional: true }
		]
	},
	{
		kind: 'done',
		writes: 'done',
		name: 'Job done',
		about: 'A planned job was done, whenever that was.',
		fields: [
			{ key: 'task', name: 'Job', form: 'task' },
			{ key: 'amount', name: 'Amount, if another', form: 'text', optional: true, example: '5.0 mL' }
		]
	},
	{
		kind: 'missed',
		writes: 'missed',
		name: 'Job not done',
		about: 'A planned job was not done and will not be done late.',
		fields: [
			{ key: 'task', name: 'Job', form: 'task' },
			{ key: 'reason', name: 'Why', form: 'text', optional: true, example: 'nobody was there' }
		]
	},
	{
		kind: 'loss',
		writes: 'loss',
		name: 'Loss',
		about:
			'Fish died. Take them out at once, test and change; keep them cold, not frozen, and have them examined the same day.',
		fields: [lot('Which fish'), { key: 'count', name: 'How many', form: 'text', example: '1' }]
	},
	{
		kind: 'change',
		writes: 'change',
		name: 'Unplanned change',
		about: 'Water changed that the plan did not ask for.',
		fields: [
			{ key: 'water', name: 'How much', form: 'text', example: '30 L, or 25 %' },
			{
				key: 'source',
				name: 'With',
				form: 'choice',
				choices: named(changeSources, { source: 'new salt water', fresh: 'fresh water' })
			}
		]
	},
	{
		kind: 'dose',
		writes: 'dose',
		name: 'Unplanned dose',
		about: 'Medicine given that the plan did not ask for. Never a second time for a dose forgotten.',
		fields: [
			{ key: 'medicine', name: 'Medicine', form: 'medicine' },
			{ key: 'amount', name: 'Measured out', form: 'text', example: '2.0 mL' }
		]
	},
	{
		kind: 'topoff',
		writes: 'topoff',
		name: 'Top-off',
		about: 'Fresh water for what evaporated: no salt, no medicine.',
		fields: [{ key: 'litres', name: 'Fresh water', form: 'text', example: '1.5 L' }]
	},
	{
		kind: 'equipment',
		writes: 'equipment',
		name: 'Equipment',
		about: 'Something was put in or taken out, switched on or failed.',
		fields: [
			{ key: 'what', name: 'What', form: 'choice', choices: named(equipment, { uv: 'UV lamp' }) },
			{ key: 'on', name: 'Running, or in the tank, from now on', form: 'flag' }
		]
	},
	{
		kind: 'joins',
		writes: 'fish',
		name: 'Fish added',
		about: 'Fish joined the tank.',
		fields: [
			joining('what', 'Fish', { example: 'yellow wrasse' }),
			joining('group', 'Group', {
				form: 'choice',
				choices: Object.values(groupRows).map(({ group, name }) => ({ value: group, name }))
			}),
			joining('count', 'How many', { example: '1' }),
			joining('mass', 'Mass, all together', { optional: true, example: '20 g' }),
			joining('feed', 'Food a day', { optional: true, example: '0.3 g/d' }),
			joining('protein', 'Protein of it as fed', { optional: true, example: '9 %' }),
			{ key: 'restart', name: 'Credits of the run restart', form: 'flag' }
		]
	},
	{
		kind: 'leaves',
		writes: 'fish',
		name: 'Fish leaving',
		about: 'Fish left the tank alive, to another one or to a buyer.',
		fields: [lot('Which fish'), { key: 'count', name: 'How many', form: 'text', example: '1' }]
	}
];

/** Why a new fish restarts everybody, said where it is chosen. */
export const restartReason =
	'New fish may carry anything, and whoever is in the water with them meets it: the days counted so far count no longer. Keep the credits only if the fish come out of a finished quarantine of their own.';

/** Kinds of the log by which it is filtered, with their names. */
export const kindNames: Readonly<Record<LogKind, string>> = {
	done: 'Job done',
	missed: 'Job not done',
	reading: 'Reading',
	observation: 'Look at the fish',
	loss: 'Loss',
	fish: 'Fish added or leaving',
	change: 'Unplanned change',
	dose: 'Unplanned dose',
	equipment: 'Equipment',
	topoff: 'Top-off',
	correct: 'Correction',
	choice: 'Choice'
};
