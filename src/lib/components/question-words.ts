import {
	columns,
	kindText,
	medicineText,
	theirsIn,
	type PhaseRow,
	type Question,
	type SheetDocument
} from '$lib/sheet';
import { editWords, valueWords } from './edit-words';
import { placeWords } from './place-words';
import { shelf } from './shelf';

/** A question as the page asks it. */
export interface QuestionWords {
	place: string;
	theirs: string;
	yours: string;
	/** who saved theirs and when, in the run's zone */
	by: string;
}

/** What stands in a cell, as the sheet writes it. */
function cellWords(key: unknown, value: unknown, document: SheetDocument): string {
	if (key === 'kind' && typeof value === 'string') return kindText(value);
	if (key === 'medicine' && typeof value === 'string') return medicineText(value, document, shelf);
	return value === undefined || value === '' ? 'empty' : valueWords(value);
}

export function questionWords(
	question: Question,
	document: SheetDocument,
	when: (instant: string) => string
): QuestionWords {
	const { place, yours, row, theirs: edit, who, at } = question;
	const last = place.at(-1);
	const { gone, value } = theirsIn(question, document);
	const isRow = typeof last === 'object' || typeof last === 'number';
	const by = who === '' ? 'on this device' : `${who}, ${when(at)}`;
	return {
		place: gone && row ? goneWords(row.value as PhaseRow, last) : placeWords(document, cellOf(place)),
		theirs: gone ? 'taken out' : isRow ? editWords(edit) : cellWords(last, value, document),
		yours: yours === undefined && isRow ? 'taken out' : cellWords(last, yours, document),
		by
	};
}

const cellOf = (place: Question['place']) =>
	place.map((step) => (typeof step === 'object' ? step.id : String(step))).join('.');

/** A row that is not in the document any more, by what it was. */
function goneWords(row: PhaseRow, key: unknown): string {
	const title = columns.find((column) => column.key === key)?.title;
	return [`A row that is gone, ${kindText(row.kind) || row.id}`, title].filter(Boolean).join(', ');
}
