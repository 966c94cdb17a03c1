/** The table that page and command line share: whole, and each example of it answers. */
import { describe, expect, it } from 'vitest';
import { questions, type Question } from './index.ts';

const examples = (question: Question, us: boolean) =>
	Object.fromEntries(
		Object.entries(question.inputs).map(([name, input]) => [
			name,
			(us ? input.usExample : undefined) ?? input.example
		])
	);

describe.each(questions.map((question) => [question.id, question] as const))('%s', (_, question) => {
	it('says its formula, source and range', () => {
		for (const text of [question.title, question.formula, question.source, question.range]) {
			expect(text.trim()).not.toBe('');
		}
	});
	it.each([
		['metric', false],
		['US', true]
	] as const)('answers its own example in %s units', (_units, us) => {
		const outcome = question.answer(examples(question, us));
		if (!outcome.ok)
			throw new Error(`${outcome.input}: ${outcome.problem.seen}, ${outcome.problem.expected}`);
		expect(outcome.value.lines.length).toBeGreaterThan(0);
		for (const value of Object.values(outcome.value.json)) {
			expect(typeof value === 'string' || Number.isFinite(value)).toBe(true);
		}
	});
	it('names the field that is empty', () => {
		for (const [name, input] of Object.entries(question.inputs)) {
			if (input.otherwise !== undefined) continue;
			const outcome = question.answer({ ...examples(question, false), [name]: '' });
			expect(outcome.ok ? null : [outcome.input, outcome.problem.code]).toEqual([name, 'missing']);
		}
	});
	it('names the field that cannot be read', () => {
		for (const name of Object.keys(question.inputs)) {
			const outcome = question.answer({ ...examples(question, false), [name]: 'three fathoms' });
			expect(outcome.ok ? null : outcome.input).toBe(name);
		}
	});
});

it('every question has an id of its own', () =>
	expect(new Set(questions.map(({ id }) => id)).size).toBe(questions.length));
