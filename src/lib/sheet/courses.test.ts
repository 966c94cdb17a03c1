import { describe, expect, it, vi } from 'vitest';
import { courses as ready, type Active } from '../formulary/index.ts';
import { plan } from '../planner/index.ts';
import { applyAll, readRun } from '../run/index.ts';
import { courseNamed, courseOf, emptyHistory, insertCourse, offers, record, undo } from './index.ts';
import { deskOf, sampleDocument } from './sample-desk.ts';
import type { SheetDocument } from './rows.ts';

const planned = (document: SheetDocument) =>
	plan(readRun(document, { today: '2026-11-28' }), '2026-11-28T10:00:00Z');

describe.each(ready.map((course) => [course.id, course] as const))('the ready course %s', (_, course) => {
	// a plan is marched in each: seconds on a busy machine
	vi.setConfig({ testTimeout: 60_000 });
	it.each([
		['into an empty sheet', { ...sampleDocument, phases: [] }, 0],
		['between rows', sampleDocument, 2],
		['behind the last row', sampleDocument, 5]
	])('goes %s, every row readable, and comes out in one step', (_where, document, row) => {
		const edits = insertCourse(deskOf(document), row, course);
		const after = applyAll(document, edits);
		expect(after.phases).toHaveLength(document.phases.length + course.phases.length);
		expect(new Set(after.phases.map(({ id }) => id)).size).toBe(after.phases.length);
		const { problems, phases } = planned(after);
		expect(problems).toEqual([]);
		// the sample's own hold is never tested and so never ends: what follows it has no day
		if (document.phases.length === 0) expect(phases.filter(({ from }) => from === null)).toEqual([]);
		const back = undo(record(emptyHistory, edits));
		expect(applyAll(after, back?.edits ?? [])).toEqual(document);
	});

	it('brings the bottles that are missing, without a strength', () => {
		const after = applyAll(sampleDocument, insertCourse(deskOf(), 5, course));
		const actives = after.medicines?.map(({ active }) => active) ?? [];
		expect(actives).toEqual([
			'copper-ionic',
			...course.medicines.filter((active: Active) => active !== 'copper-ionic')
		]);
		expect(after.medicines?.slice(1).every((bottle) => !('strength' in bottle))).toBe(true);
		const asked = planned(after).findings.filter(({ cell }) => cell?.endsWith('.strength'));
		expect(asked.length).toBeGreaterThanOrEqual(actives.length - 1);
	});
});

describe('a course', () => {
	const wanted = ready.find(({ id }) => id === 'observe-only');
	if (!wanted) throw new Error('no such course');

	it('begins after the row above, or with the arrival at the top', () => {
		const below = applyAll(sampleDocument, insertCourse(deskOf(), 3, wanted));
		expect(below.phases[3]).toMatchObject({ id: 'watch-2', starts: 'after wash' });
		expect(below.phases[4]).toMatchObject({ id: 'release-2', starts: 'after watch-2' });
		const top = applyAll(sampleDocument, insertCourse(deskOf(), 0, wanted));
		expect(top.phases[0]).toMatchObject({ starts: 'on 2026-11-27' });
	});

	it('takes the place of an empty row and of no other', () => {
		const blank = { ...sampleDocument, phases: [...sampleDocument.phases, { id: 'row' }] };
		const after = applyAll(blank, insertCourse(deskOf(blank), 5, wanted));
		expect(after.phases.map(({ id }) => id).slice(5)).toEqual(['watch-2', 'release-2']);
		expect(courseNamed(deskOf(blank), 5, ` ${wanted.name.toUpperCase()} `)).toBe(wanted);
		expect(courseNamed(deskOf(blank), 1, wanted.name)).toBeUndefined();
	});

	it('is offered by name in the first cell of an empty row', () => {
		const found = offers(deskOf(), 5, 'kind', 'watch for', null);
		expect(found.map(({ text }) => text)).toEqual([wanted.name]);
		expect(offers(deskOf(), 1, 'kind', 'watch for', null)).toEqual([]);
	});
});

describe('rows kept as a course', () => {
	it('plan the same again in another run', () => {
		const phases = courseOf(sampleDocument, 1, 3);
		expect(phases[0]).toMatchObject({ medicine: '{copper-ionic}', starts: 'on {day}' });
		expect(phases[1]).toMatchObject({ starts: 'after hold' });
		const course = { id: 'mine', name: 'Mine', about: '', phases, own: true };
		const empty = { ...sampleDocument, medicines: undefined, phases: [] };
		const after = applyAll(empty, insertCourse(deskOf(empty), 0, course));
		expect(after.medicines).toEqual([{ id: 'cu', active: 'copper-ionic' }]);
		expect(after.phases.map(({ starts }) => starts)).toEqual([
			'on 2026-11-27',
			'after hold',
			'after wash + 1 d'
		]);
	});

	it('keep the days between rows that began on days of their own', () => {
		const document: SheetDocument = {
			...sampleDocument,
			phases: [
				{ id: 'one', kind: 'observe', starts: 'on 2026-12-01', lasts: '2 d' },
				{ id: 'two', kind: 'observe', starts: 'on 2026-12-05', lasts: '2 d' }
			]
		};
		const course = { id: 'mine', name: 'Mine', about: '', phases: courseOf(document, 0, 1), own: true };
		const top = applyAll(sampleDocument, insertCourse(deskOf(), 0, course));
		expect(top.phases.slice(0, 2).map(({ starts }) => starts)).toEqual(['on 2026-11-27', 'on 2026-12-01']);
		const below = applyAll(sampleDocument, insertCourse(deskOf(), 1, course));
		expect(below.phases.slice(1, 3).map(({ starts }) => starts)).toEqual([
			'after settle',
			'after settle + 4 d'
		]);
	});
});
