import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Draft } from './event.ts';
import { stamp, type IdentityRow } from './revision.ts';

const draft = (uid: string, hour = 8, title = 'Dose'): Draft => ({
	uid,
	when: { start: `2027-02-01T0${hour}:00:00Z`, end: `2027-02-01T0${hour}:10:00Z` },
	title,
	description: '',
	url: null,
	categories: [],
	alarmMinutes: null,
	status: null
});
const at = (minute: number) => `2027-01-01T00:${String(minute).padStart(2, '0')}:00Z`;

test('hands through what did not change, rows and all', () => {
	const first = stamp([], [draft('a'), draft('b')], at(0));
	expect(stamp(first.rows, [draft('a'), draft('b')], at(9))).toEqual(first);
});

test('a task that left becomes a tombstone and comes back above its old self', () => {
	const first = stamp([], [draft('a'), draft('b')], at(0));
	const gone = stamp(first.rows, [draft('a')], at(1));
	expect(gone.events.map(({ uid }) => uid)).toEqual(['a']);
	expect(gone.rows.find(({ uid }) => uid === 'b')?.goneAt).toBe(at(1));
	expect(stamp(gone.rows, [draft('a')], at(2)).rows).toEqual(gone.rows);
	const back = stamp(gone.rows, [draft('a'), draft('b')], at(3));
	expect(back.events[1]).toMatchObject({ uid: 'b', sequence: 1, lastModified: at(3) });
	expect(back.rows.every(({ goneAt }) => goneAt === null)).toBe(true);
});

// RFC 5546 2.1.4: SEQUENCE rises with a change of time or status; RFC 5545 3.8.7.3: LAST-MODIFIED with any
test('over random histories: SEQUENCE counts the moves, LAST-MODIFIED the changes, and neither falls', () => {
	const step = fc.record({
		hour: fc.integer({ min: 1, max: 3 }),
		title: fc.constantFrom('x', 'y'),
		there: fc.boolean()
	});
	fc.assert(
		fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
			let rows: IdentityRow[] = [];
			let last: { hour: number; title: string } | null = null;
			let left = false;
			let sequence = 0;
			let modified = '';
			for (const [minute, { hour, title, there }] of steps.entries()) {
				const revision = stamp(rows, there ? [draft('a', hour, title)] : [], at(minute));
				rows = revision.rows;
				if (!there) {
					left = last !== null;
					continue;
				}
				const moved = last !== null && (left || last.hour !== hour);
				if (moved) sequence += 1;
				if (!last || moved || last.title !== title) modified = at(minute);
				expect(revision.events[0]).toMatchObject({ sequence, lastModified: modified });
				[last, left] = [{ hour, title }, false];
			}
		}),
		{ seed: 8, numRuns: 300 }
	);
	expect.hasAssertions();
});
