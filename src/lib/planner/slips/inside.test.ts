import { expect, it } from 'vitest';
import { openSlips, type Finding } from '../index.ts';
import { dec, doneUntil, planScene, scenes, withLog, type Entry, type Scene } from './scenes.ts';

/** A hold whose water nobody changes, and two days on which nobody comes. */
function unchanged(): Scene {
	const scene = scenes.hold();
	const [copper, ...rest] = scene.phases as object[];
	return { ...scene, away: ['2026-12-07', '2026-12-08'], phases: [{ ...copper, change: 'none' }, ...rest] };
}

/** Copper was read low twice, so that a loss is thought of, and made up for; then nobody comes for two days. */
function taught(): Scene {
	const away = unchanged();
	const read = (day: number, value: number): Entry => ({
		id: `r${day}`,
		at: dec(day, '08:05'),
		kind: 'reading',
		task: `copper/test/${day}`,
		what: 'Cu',
		value: `${value} mg/L`
	});
	const given = (day: number, amount: number): Entry => ({
		id: `g${day}`,
		at: dec(day, '08:06'),
		kind: 'done',
		task: `copper/dose/${day}`,
		amount: `${amount} mL`
	});
	const open = [5, 6, 7, 8].flatMap((n) => [`copper/test/${n}`, `copper/dose/${n}`]);
	const log = doneUntil(away, dec(6, '12:00'), open);
	// 2 mL of 2 mg/mL in 100 L: 0.04 mg/L
	return withLog(away, [...log, read(5, 0.14), given(5, 0.1), read(6, 0.13), given(6, 2)]);
}

const now = dec(9, '08:01');
const slipOf = (scene: Scene) => openSlips(scene, now, '2026-12-09')[0];
const wayOf = (scene: Scene, taken: string) => slipOf(scene)?.ways.find((way) => way.taken === taken);

it('a late test says what a reading inside brings where the level is thought to have fallen, and so it comes', () => {
	const scene = taught();
	const before = planScene(scene, now);
	const says = /If it reads 0\.15 mg\/L or more they do: release (\S+)\.$/.exec(
		wayOf(scene, 'now')?.because ?? ''
	);
	expect(says?.[1]).toBeDefined();
	expect((says?.[1] ?? '') < (before.release ?? '')).toBe(true);
	const after = (value: string) => {
		const entry: Entry = { id: 'z', at: dec(9, '08:02'), kind: 'reading', what: 'Cu', value };
		return planScene(withLog(scene, [...scene.log, entry]), dec(9, '08:03')).release;
	};
	for (const value of ['0.15 mg/L', '0.16 mg/L', '0.18 mg/L'])
		expect([value, after(value)]).toEqual([value, says?.[1]]);
	expect((after('0.14 mg/L') ?? '') >= (before.release ?? '')).toBe(true);
	// what is left out brings nothing
	expect(wayOf(scene, 'skip')?.because).not.toContain('If it reads');
});

it('a late test says nothing of it where nothing is thought to be lost', () => {
	const away = unchanged();
	const log = doneUntil(away, dec(6, '12:00'));
	expect(wayOf(withLog(away, log), 'now')?.because).toBe(
		'A level counts while a test vouches for it, two days at most: days past those two count only from the next test on.'
	);
});

it('a fall ahead is found though one lies behind, and tests beside days away do not cover it', () => {
	const scene = taught();
	const found = (rule: string, at: string): Finding[] =>
		planScene(scene, at).findings.filter((finding) => finding.rule === rule);
	const falls = found('below-floor', dec(6, '18:00')).map(({ date }) => date);
	expect(falls).toEqual(['2026-12-06', '2026-12-08']);
	for (const { because } of found('away-on-task', dec(6, '18:00')))
		expect(because).toContain(
			'By the forecast ionic copper falls under 0.15 mg/L by 2026-12-08 all the same'
		);
});
