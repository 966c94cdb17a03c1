import { clearAt, medicines, type Active } from '$lib/formulary';
import type { CourseHints, SheetDocument } from '$lib/sheet';

const rowOf = (active: string) => (active in medicines ? medicines[active as Active] : undefined);

/** What the shelf proposes for the medicine of a row, in the sheet's own grammar; null for a row without one. */
export function courseHints(document: SheetDocument, medicine: unknown): CourseHints | null {
	const active = document.medicines?.find(({ id }) => id === medicine)?.active;
	const row = active === undefined ? undefined : rowOf(active);
	if (!row) return null;
	const window = row.window?.value;
	const course = row.course?.value;
	const clear = clearAt(row.active);
	const unit = row.unit === 'uL/L' ? 'ppm' : 'mg/L';
	return {
		level: [
			...(window ? [{ text: `${window.low}-${window.high} ${unit}`, about: 'the shelf’s window' }] : []),
			...(clear === null ? [] : [{ text: `${clear} ${unit}`, about: 'counts as gone' }])
		],
		lasts: [
			...(course?.days ? [{ text: `${course.days} d`, about: 'the shelf’s course' }] : []),
			...(course?.doses ? [{ text: `${course.doses} doses`, about: 'the shelf’s course' }] : [])
		],
		repeat: course?.gapDays ? [{ text: `every ${course.gapDays} d`, about: 'the shelf’s course' }] : []
	};
}
