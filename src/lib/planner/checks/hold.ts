import { unsourced } from '../../formulary/index.ts';
import { dayNumber, dayText, type Day } from '../../run/index.ts';
import { mostAllowed } from '../bottle.ts';
import { holdLevels } from '../phases/hold.ts';
import { figure, levelText } from '../words.ts';
import {
	called,
	dayAt,
	dosing,
	during,
	levelIn,
	NEAR,
	servicesIn,
	withheld,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';
import { withTest } from './with-test.ts';

const holds = (seen: Seen) => dosing(seen).filter(({ phase }) => phase.kind === 'hold');

/** After the rise a hold should never be under its floor. */
export const belowFloor: Check = {
	rule: 'below-floor',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a hold that falls under its floor after it was once inside',
	source: 'below the window copper does nothing: veterinary manual text',
	find: (seen) => holds(seen).flatMap((given) => fallen(seen, given)),
	repairs: ({ phase }, seen) => holdHigher(seen, phase)
};

/** What lifts a hold off its floor: an aim inside the window, a higher one, a second look a day. */
export function holdHigher(seen: Seen, id: string | null): Candidate[] {
	const given = holds(seen).find(({ phase }) => phase.id === id);
	const levels = given && holdLevels(given.phase, given.bottle);
	if (!given || !levels) return [];
	const cell = `phases.${id}.aim`;
	const width = levels.ceiling - levels.floor;
	const higher = [0.8, 0.9]
		.map((share) => levels.floor + share * width)
		.filter((aim) => aim > levels.aim + NEAR)
		.map((aim) => ({
			title: `Aim at ${levelText(given.bottle, aim)}`,
			cells: { [cell]: levelText(given.bottle, aim) }
		}));
	return [
		...(aimOutside(given) ? [{ title: 'Aim inside the window', cells: { [cell]: null } }] : []),
		...higher,
		{ title: 'Look after the tank twice a day', cells: { service: ['08:00', '20:00'] } }
	];
}

/** The first fall; once that one is over, the next that lasts until today at least. */
function fallen(seen: Seen, given: Given): Draft[] {
	const { phase, bottle } = given;
	const levels = holdLevels(phase, bottle);
	if (!levels || aimOutside(given)) return [];
	const today = dayAt(seen, seen.nowMs);
	const [first, ...others] = fallsIn(seen, given, levels.floor);
	const next = first && first.until <= today ? others.find(({ until }) => until >= today) : undefined;
	return [first, next].flatMap((fall) =>
		!fall || (fall.day >= today && withheld(seen, bottle))
			? []
			: [
					{
						date: fall.day,
						phase: phase.id,
						cell: `phases.${phase.id}.level`,
						message: `${bottle.row.name} falls to ${levelText(bottle, fall.level)} on ${fall.day}, under the floor of ${levelText(bottle, levels.floor)}.`,
						because:
							'Time under the floor earns no credit, and a break of a day or more starts the course again.'
					}
				]
	);
}

interface Fall {
	day: Day;
	level: number;
	/** the last day on which the level is found or left there */
	until: Day;
}

/** Stretches under the floor, once the level was up there. */
function fallsIn(seen: Seen, given: Given, floor: number): Fall[] {
	const falls: Fall[] = [];
	let above = false;
	let under: Fall | null = null;
	for (const { day, before, after } of servicesIn(seen)) {
		if (!during(day, given)) continue;
		for (const level of [levelIn(before, given.bottle), levelIn(after, given.bottle)]) {
			if (level >= floor - NEAR) [above, under] = [true, null];
			else if (under) under.until = day;
			else if (above) falls.push((under = { day, level, until: day }));
		}
	}
	return falls;
}

/** The window and the aim of a hold, where the aim typed lies outside. An aim over the ceiling is another matter. */
function aimOutside({ phase, bottle }: Given): { aim: number; low: number; high: number } | null {
	const { aim } = phase;
	const typed = phase.level ?? bottle.medicine.level ?? null;
	const window = typed && typed.low < typed.high ? typed : bottle.window;
	if (aim === null || !window || aim > (mostAllowed(bottle) ?? Infinity) + NEAR) return null;
	const { low, high } = window;
	return aim < low - NEAR || aim > high + NEAR ? { aim, low, high } : null;
}

/** An aim that the window does not hold. */
export const aimOutsideWindow: Check = {
	rule: 'aim-outside-window',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a hold that aims at a level outside its own window',
	source: unsourced.J,
	find: (seen) =>
		holds(seen).flatMap((given): Draft[] => {
			const { phase, bottle, from } = given;
			const out = aimOutside(given);
			if (!out) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.aim`,
					message: `phases.${phase.id} aims at ${levelText(bottle, out.aim)}, outside its window of ${figure(out.low, 3)} to ${levelText(bottle, out.high)}.`,
					because:
						out.aim < out.low
							? 'It is dosed to the floor of the window instead, and the first loss takes it under: such days earn no credit.'
							: 'Days are counted from the floor of the window on, but nobody has said that fish bear what lies above it.'
				}
			];
		}),
	repairs: ({ cell }) => (cell ? [{ title: 'Aim inside the window', cells: { [cell]: null } }] : [])
};

/** A window that begins lower than what is known to work. */
export const windowTooLow: Check = {
	rule: 'window-too-low',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a hold whose floor lies under the lowest level on record as useful',
	source: 'the window of the shelf',
	find: (seen) =>
		holds(seen).flatMap(({ phase, bottle, from }) => {
			const levels = holdLevels(phase, bottle);
			const useful = bottle.medicine.level === undefined ? bottle.row.window : null;
			if (!levels || !useful || levels.floor >= useful.value.low - NEAR) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					message: `phases.${phase.id} counts days from ${levelText(bottle, levels.floor)} on; ${called(bottle)} is known to work from ${levelText(bottle, useful.value.low)}.`,
					because: 'Days below it would be credited although the parasite lives through them.',
					source: useful.source
				}
			];
		}),
	repairs: (draft, seen) =>
		holds(seen).flatMap(({ phase, bottle }) => {
			const useful = bottle.row.window?.value;
			if (phase.id !== draft.phase || !useful || !draft.cell) return [];
			const window = `${figure(useful.low, 3)}-${levelText(bottle, useful.high)}`;
			return [{ title: `Hold ${window}`, cells: { [draft.cell]: window } }];
		})
};

/** A hold must be seen by a test, or nobody knows whether it holds. One day without a test is no trouble. */
export const holdUntested: Check = {
	rule: 'hold-untested',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a hold whose tests leave a day unvouched for: more than 48 hours old at its start',
	source: unsourced.CP,
	find: (seen) => holds(seen).flatMap((given) => unseen(seen, given) ?? []),
	repairs(draft, seen) {
		const given = holds(seen).find(({ phase }) => phase.id === draft.phase);
		if (!given || !draft.cell) return [];
		const what = given.bottle.measuredAs;
		return [{ title: `Test ${what} daily`, cells: { [draft.cell]: withTest(given.phase, what) } }];
	}
};

function unseen(seen: Seen, given: Given): Draft | null {
	const { phase, bottle, from } = given;
	const within = bottle.row.testWithinHours;
	if (!within || !holdLevels(phase, bottle)) return null;
	const what = bottle.measuredAs;
	const today = dayAt(seen, seen.nowMs);
	const tests = seen.plan.tasks.filter(
		({ what: tested, date }) => tested?.includes(what) && during(date, given)
	);
	const lastDay = given.to ?? tests.at(-1)?.date ?? from;
	const marks = [...tests.map(({ date }) => date), dayText(dayNumber(lastDay) + 1)];
	const longest = within.value / 24;
	const gap = marks.findIndex((day, i) => {
		const since = i === 0 ? dayNumber(from) - 1 : dayNumber(marks[i - 1] ?? from);
		return day > today && dayNumber(day) - since > longest;
	});
	if (tests.length > 0 && gap < 0) return null;
	const last = marks[gap - 1];
	return {
		date: last ?? from,
		phase: phase.id,
		cell: `phases.${phase.id}.test`,
		message: last
			? `After the test of ${last} nobody tests ${what} for ${dayNumber(marks[gap] ?? last) - dayNumber(last)} days.`
			: `phases.${phase.id} begins on ${from} without a test of ${what}.`,
		because: `A test vouches for ${within.value} h: what the level does after that nobody has seen.`,
		source: within.source
	};
}
