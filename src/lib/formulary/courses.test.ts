import { describe, expect, it } from 'vitest';
import { readPlanFile } from '../run/index.ts';
import { actives, coursePhases, courses, medicines, stay, type Active, type CourseRow } from './index.ts';

const ids: Partial<Record<Active, string>> = Object.fromEntries(
	actives.map((active) => [active, `my-${active}`])
);
const filled = (course: CourseRow) => coursePhases(course, '2026-11-27', ids);
const planOf = (course: CourseRow) => ({
	format: 'lazaret-plan/1',
	name: course.id,
	timeZone: 'Europe/Vienna',
	service: '08:00',
	tank: { name: 'Q1', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
	source: { name: 'display' },
	lots: [],
	medicines: course.medicines.map((active) => ({ id: ids[active], active })),
	phases: filled(course)
});
const number = (text: unknown): number => Number.parseFloat(String(text));

describe.each(courses.map((course) => [course.id, course] as const))('course %s', (_, course) => {
	it('fills every brace with the day and the ids of the file', () => {
		const text = JSON.stringify(filled(course));
		expect(text).not.toMatch(/[{]\w+[}]|[{}]{2,}|\{day\}/);
		expect(text).toContain('on 2026-11-27');
		for (const active of course.medicines) expect(text).toContain(`my-${active}`);
	});

	it('is read by the strict grammar of a plan file, cell by cell', () => {
		const answer = readPlanFile(JSON.stringify(planOf(course)));
		expect(answer).toMatchObject({ ok: true });
		if (answer.ok) expect(answer.value.run.phases).toHaveLength(course.phases.length);
	});

	it('uses the medicines it lists and no others', () => {
		const used = new Set(course.phases.flatMap((phase) => ('medicine' in phase ? [phase.medicine] : [])));
		expect([...used].sort()).toEqual(course.medicines.map((active) => `{${active}}`).sort());
		for (const active of course.medicines) expect(medicines[active].active).toBe(active);
	});

	it('starts each phase on a day or by an earlier phase, and ends with the release', () => {
		const phases = filled(course);
		const seen = new Set<string>();
		for (const phase of phases) {
			const start = /^(?:on \d{4}-\d\d-\d\d|(?:after|with) ([a-z-]+)(?: \+ \d+ d)?)$/.exec(
				String(phase.starts)
			);
			expect(start, String(phase.starts)).not.toBeNull();
			if (start?.[1]) expect(seen).toContain(start[1]);
			seen.add(String(phase.id));
		}
		expect(seen.size).toBe(phases.length);
		expect(phases.at(-1)?.kind).toBe('release');
	});

	it('comes to at least the days that nearly all institutions hold (Hadfield & Clayton 2011)', () => {
		const counted = course.phases
			.filter((phase) => !String(phase.starts).startsWith('with '))
			.map((phase) => {
				if (phase.kind === 'release') return 0;
				if (phase.kind === 'washout') return 1;
				if (phase.repeat && /dose|move/.test(String(phase.lasts))) {
					return (number(phase.lasts) - 1) * number(String(phase.repeat).slice('every '.length)) + 1;
				}
				return number(phase.lasts);
			});
		expect(counted.reduce((sum, days) => sum + days, 0)).toBeGreaterThanOrEqual(stay.totalDays.value);
	});
});

it('keeps every dosed level inside the window of its medicine', () => {
	const dosed = courses.flatMap((course) =>
		course.phases.filter((one) => one.kind === 'pulse' || one.kind === 'hold')
	);
	expect(dosed).toHaveLength(6);
	for (const phase of dosed) {
		const window = medicines[String(phase.medicine).slice(1, -1) as Active].window?.value;
		const ends = String(phase.level).split('-').map(number);
		expect(Math.min(...ends)).toBeGreaterThanOrEqual(window?.low ?? NaN);
		expect(Math.max(...ends)).toBeLessThanOrEqual(window?.high ?? NaN);
	}
});

it('keeps copper for 28 days in one tank and for 14 only before a move', () => {
	const copper = (id: string) => {
		const phases = courses.find((course) => course.id === id)?.phases ?? [];
		const at = phases.findIndex((phase) => phase.id === 'copper');
		return {
			lasts: phases[at]?.lasts,
			moves: phases.some((phase) => phase.kind === 'transfer' && phase.starts === 'after copper')
		};
	};
	expect(copper('copper-and-flukes')).toEqual({ lasts: '28 d', moves: false });
	expect(copper('copper-and-move')).toEqual({ lasts: '14 d', moves: true });
});

it('refuses to write a course whose medicine has no id', () => {
	const course = courses.find((one) => one.id === 'ciliate-bath') as CourseRow;
	expect(() => coursePhases(course, '2026-11-27', {})).toThrow('formalin');
});
