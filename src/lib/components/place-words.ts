import { columns, kindText, medicineText, type SheetDocument } from '$lib/sheet';
import { limitFields, lotFields, medicineFields, rowFields, sourceFields, tankFields } from './panel-fields';
import { shelf } from './shelf';

type Named = readonly { key: string; label: string }[];

const labelOf = (fields: Named, key: string) => fields.find((field) => field.key === key)?.label ?? key;

const panels: Record<string, { title: string; fields: Named }> = {
	tank: { title: 'Tank', fields: tankFields },
	source: { title: 'New water', fields: sourceFields },
	limits: { title: 'Limits', fields: limitFields }
};

/** A place of the plan file as a keeper would say it: `Row 2, Hold, Lasts`; `Ionic copper, Strength of this bottle`. */
export function placeWords(document: SheetDocument, cell: string): string {
	const [list = '', id = '', key = ''] = cell.split('.');
	const panel = panels[list];
	if (panel) return `${panel.title}, ${labelOf(panel.fields, key ? `${id}.${key}` : id)}`;
	if (list === 'phases') {
		const row = document.phases.findIndex((phase) => phase.id === id);
		const title = columns.find((column) => column.key === key)?.title ?? labelOf(rowFields, key);
		const kind = kindText(document.phases[row]?.kind);
		return row < 0 ? cell.replaceAll('.', ', ') : [`Row ${row + 1}`, kind, title].filter(Boolean).join(', ');
	}
	if (list === 'medicines')
		return [medicineText(id, document, shelf), labelOf(medicineFields, key)].filter(Boolean).join(', ');
	if (list === 'lots') {
		const lot = (document.lots as { id: string; what?: string }[] | undefined)?.find((one) => one.id === id);
		return [lot?.what ?? 'Fish', labelOf(lotFields, key)].filter(Boolean).join(', ');
	}
	return cell.replaceAll('.', ', ');
}

const placeNames = /\b(?:tank|source|limits|lots|medicines|phases)(?:\.[A-Za-z][A-Za-z0-9-]*){1,2}/g;

/** A sentence with every place of the plan file in it (`phases.copper.level`) as a keeper would say it. */
export const withPlaces = (sentence: string, placeOf: (cell: string) => string): string =>
	sentence.replace(placeNames, (cell) => placeOf(cell));
