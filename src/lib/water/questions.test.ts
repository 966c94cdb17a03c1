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

const answerOf = (id: string, texts: Record<string, string>) => {
	const found = questions.find((question) => question.id === id);
	if (!found) throw new Error(`no question ${id}`);
	return found.answer(texts);
};

describe('what no tank can give', () => {
	it('a shrunken volume above the full one is refused at its field', () => {
		const texts = { reading: '0.12 mg/L', shrunken: '116 L', volume: '112 L' };
		expect(answerOf('topoff', texts)).toMatchObject({
			ok: false,
			input: 'shrunken',
			problem: { seen: '116 L', expected: 'a volume up to the full 112 L' }
		});
		expect(answerOf('topoff', { ...texts, shrunken: '112 L' })).toMatchObject({
			ok: true,
			value: { json: { mgPerL: 0.12 } }
		});
	});
	it('figures that overflow give no answer', () => {
		const texts = { volume: '1e300 L', from: '0 mg/L', to: '1e300 mg/L', strength: '2 mg/mL' };
		expect(answerOf('dose', texts)).toMatchObject({ ok: false, problem: { code: 'out-of-range' } });
	});
	it('a kit that counts NH4 is read by the mass of its nitrogen', () => {
		// 18.039 mg of ammonium hold 14.007 mg of nitrogen (atomic weights)
		const kit = questions.find(({ ask, inputs }) => ask === 'kit' && 'as' in inputs);
		const outcome = kit?.answer({
			reading: '1.2879 mg/L',
			as: 'nh4-total',
			temperature: '25 C',
			salinity: '34 ppt',
			pH: '8.1'
		});
		expect(outcome).toMatchObject({ ok: true });
		if (outcome?.ok) expect(outcome.value.json.tanMgNPerL).toBeCloseTo(1, 4);
	});
});

/** By hand: 25 uL/L in 44 L are 1.1 mL of the whole liquid, however the label counts its formaldehyde. */
describe('formalin by its formaldehyde', () => {
	const dose = questions.find(({ id }) => id === 'dose');
	const ask = (strength: string, to: string) =>
		dose?.answer({ volume: '44 L', from: to.replace(/\d+/, '0'), to, strength });
	it.each(['37 % w/w', '37% w/v', '37 % formaldehyde', '1 mL/mL'])('%s is the whole liquid', (strength) => {
		expect(ask(strength, '25 uL/L')).toMatchObject({ ok: true, value: { json: { value: 1.1, unit: 'mL' } } });
		expect(ask(strength, '25 ppm')).toMatchObject({ ok: true, value: { json: { value: 1.1, unit: 'mL' } } });
	});
	it('another share is asked about, and a level by mass is another question', () => {
		expect(ask('10 % w/w', '25 uL/L')).toMatchObject({ ok: false });
		// 25 mg/L x 44 L of a powder of 37 %: 2.97 g
		expect(ask('37 % w/w', '25 mg/L')).toMatchObject({ ok: true, value: { json: { unit: 'mg' } } });
	});
});

/** By hand: 60 x 30 cm are 0.18 L for a millimetre, and 25.4 times as much for an inch. */
it('what a millimetre holds is told by the inch in US units', () => {
	const box = questions.find(({ id }) => id === 'volume-box');
	const outcome = box?.answer({ length: '60 cm', width: '30 cm', depth: '35 cm' });
	const [, line] = outcome?.ok ? outcome.value.lines : [];
	expect(line).toMatchObject({ value: 0.18, us: { label: 'per inch of level' } });
	expect(line && 'us' in line ? line.us?.value : 0).toBeCloseTo(4.572, 9);
});
