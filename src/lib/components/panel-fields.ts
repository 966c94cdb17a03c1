import { groups, labels, targets } from '$lib/formulary';
import { aerations, conditioners, inhabitants, lightings, substrates } from '$lib/run';

/** One field of the panels beside the sheet: a key of the plan file, how it is called, what it takes. */
export interface PanelField {
	/** with a point where it stands in a part of its own: `heater.holdsWithin` */
	key: string;
	label: string;
	/** an example with its unit */
	hint?: string;
	/** `several`: a list of words; `said`: yes, no, or nobody knows */
	kind?: 'text' | 'number' | 'date' | 'check' | 'said' | 'choice' | 'several';
	choices?: readonly { value: string; text: string }[];
}

const words = (value: string) => value.replaceAll('-', ' ');
const choices = (values: readonly string[]) => values.map((value) => ({ value, text: words(value) }));

export const tankFields: readonly PanelField[] = [
	{ key: 'name', label: 'Tank' },
	{ key: 'net', label: 'Net volume', hint: '112 L' },
	{ key: 'temperature', label: 'Temperature', hint: '26 C' },
	{ key: 'salinity', label: 'Salinity', hint: '34 ppt' },
	{ key: 'pH', label: 'pH', hint: '8.1', kind: 'number' },
	{ key: 'filterClears', label: 'Filter clears', hint: '40 L/d' },
	{ key: 'evaporates', label: 'Evaporates', hint: '1.5 L/d' },
	{ key: 'aeration', label: 'Aeration', kind: 'choice', choices: choices(aerations) },
	{ key: 'substrate', label: 'Substrate', kind: 'choice', choices: choices(substrates) },
	{ key: 'conditioner', label: 'Conditioner', kind: 'choice', choices: choices(conditioners) },
	{ key: 'holds', label: 'In the tank', kind: 'several', choices: choices(inhabitants) },
	{ key: 'lights', label: 'Lights', kind: 'choice', choices: choices(lightings) },
	{ key: 'lid', label: 'Lid', kind: 'said' },
	{ key: 'heater.holdsWithin', label: 'Heater holds within', hint: '1 C' },
	{ key: 'carbon', label: 'Carbon', kind: 'check' },
	{ key: 'resin', label: 'Resin', kind: 'check' },
	{ key: 'uv', label: 'UV', kind: 'check' },
	{ key: 'ozone', label: 'Ozone', kind: 'check' },
	{ key: 'skimmer', label: 'Skimmer', kind: 'check' }
];

export const sourceFields: readonly PanelField[] = [
	{ key: 'name', label: 'New water from' },
	{ key: 'ammonia', label: 'Ammonia (as N)', hint: '0 mg/L' },
	{ key: 'nitrate', label: 'Nitrate (as NO₃)', hint: '5 mg/L' },
	{ key: 'salinity', label: 'Salinity', hint: '34 ppt' },
	{ key: 'temperature', label: 'Temperature', hint: 'matched' },
	{ key: 'pH', label: 'pH', hint: 'matched', kind: 'number' }
];

export const limitFields: readonly PanelField[] = [
	{ key: 'nh3', label: 'Toxic ammonia (NH₃-N), at most', hint: '0.02 mg/L' },
	{ key: 'nitrate', label: 'Nitrate (NO₃), at most', hint: '10 mg/L' }
];

export const lotFields: readonly PanelField[] = [
	{ key: 'what', label: 'Fish' },
	{ key: 'group', label: 'Group', kind: 'choice', choices: choices(groups) },
	{ key: 'count', label: 'Count', kind: 'number' },
	{ key: 'mass', label: 'Mass, all together', hint: '64 g' },
	{ key: 'feed', label: 'Feed', hint: '1.6 g/d' },
	{ key: 'protein', label: 'Protein of the feed, share', hint: '0.09', kind: 'number' },
	{ key: 'arrived', label: 'Arrived', kind: 'date' }
];

export const medicineFields: readonly PanelField[] = [
	{
		key: 'active',
		label: 'Medicine',
		kind: 'choice',
		choices: Object.values(labels).map(({ active, name }) => ({ value: active, text: name }))
	},
	{ key: 'strength', label: 'Strength of this bottle', hint: '2 mg/mL, 1 g/g' },
	{ key: 'measure', label: 'Measured in steps of', hint: '0.1 mL' },
	{ key: 'ceiling', label: 'Never above', hint: 'the shelf’s own' },
	{ key: 'halfLife', label: 'Half-life in the tank', hint: 'the shelf’s own' },
	{ key: 'prescribed', label: 'Prescribed by a vet', kind: 'check' }
];

export const rowFields: readonly PanelField[] = [
	{ key: 'aim', label: 'Aim', hint: '0.18 mg/L' },
	{ key: 'target', label: 'Against', kind: 'choice', choices: choices(targets) },
	{ key: 'bath', label: 'Volume of the bath', hint: '10 L' },
	{ key: 'rise', label: 'Salinity rises', hint: '2 ppt/d' },
	{ key: 'carbon', label: 'Carbon in', kind: 'check' },
	{ key: 'resin', label: 'Resin in', kind: 'check' }
];

/** What was written in a panel, in one line: `Tank North 3 · Net volume 140 L`. */
export function fieldWords(fields: readonly PanelField[], values: unknown): string {
	const written = (values ?? {}) as Record<string, unknown>;
	const said = ({ key, label, kind }: PanelField) => {
		const value = written[key];
		if (kind === 'check') return value === true ? label : '';
		return typeof value === 'string' || typeof value === 'number' ? `${label} ${words(String(value))}` : '';
	};
	return fields.map(said).filter(Boolean).join(' · ');
}
