import { describe, expect, test } from 'vitest';
import type { Task } from '../planner/index.ts';
import { chipsOf } from './chip.ts';

const marks = { cu: { short: 'Cu', name: 'Ionic copper', hue: 'copper' as const } };
const task = (kind: Task['kind'], more: Partial<Task> = {}): Task => ({
	id: `p/${kind}/1`,
	phase: 'p',
	kind,
	date: '2026-12-01',
	time: '08:00',
	at: '2026-12-01T08:00:00Z',
	text: 'As the plan says it',
	amount: null,
	state: 'planned',
	because: '',
	cautions: [],
	...more
});
const texts = (...tasks: Task[]) => chipsOf(tasks, marks).map(({ glyph, text }) => `${glyph}: ${text}`);

describe('a line of a day', () => {
	test.each([
		[task('dose', { medicine: 'cu', amount: { value: 5, unit: 'mL' } }), 'drop: Cu 5.0 mL'],
		[task('dose', { medicine: 'cu' }), 'drop: Cu ?'],
		[task('change', { amount: { value: 33.6, unit: 'L' } }), 'wave: 33.6 L'],
		[task('washout', { amount: { value: 56, unit: 'L' } }), 'wave-out: 56 L'],
		[task('test', { what: ['NH3', 'pH'] }), 'tube: NH₃ · pH'],
		[task('test', { what: ['cu'] }), 'tube: Cu'],
		[task('equipment', { equipment: { what: 'carbon', on: true } }), 'plug: carbon in'],
		[task('release'), 'arrow: Release'],
		[task('clean'), 'brush: As the plan says it']
	])('%#: %s', (one, text) => expect(texts(one)).toEqual([text]));

	test('tests of one hour share a line and name each thing once', () => {
		const morning = task('test', { what: ['Cu', 'NH3'] });
		const other = task('test', { id: 'q/test/1', what: ['NH3', 'NO3'] });
		const evening = task('test', { id: 'q/test/2', what: ['NH3'], time: '20:00' });
		expect(texts(morning, other, evening)).toEqual(['tube: Cu · NH₃ · NO₃', 'tube: NH₃']);
	});
	test('a shared line shows the state that wants the keeper most', () => {
		const [chip] = chipsOf(
			[task('test', { what: ['Cu'], state: 'done' }), task('test', { what: ['NH3'], state: 'open' })],
			marks
		);
		expect(chip?.state).toBe('open');
	});
});

test('litres turn into gallons where the keeper reads gallons; doses stay as the syringe has them', () => {
	const us = (...tasks: Task[]) => chipsOf(tasks, marks, 'us').map(({ text }) => text);
	expect(us(task('change', { amount: { value: 33.6, unit: 'L' } }))).toEqual(['8.9 gal']);
	expect(us(task('change'))).toEqual(['? gal']);
	expect(us(task('dose', { medicine: 'cu', amount: { value: 5, unit: 'mL' } }))).toEqual(['Cu 5.0 mL']);
});
