import { gapBounds } from '../../formulary/index.ts';
import { dayNumber, dayText } from '../../run/index.ts';
import { targetOf } from '../phases/pulse.ts';
import { figure } from '../words.ts';
import { bottleOf, dosing, firstPer, practice, type Check, type Draft } from './check.ts';

/** Nobody can come, and a job falls due all the same. */
export const awayOnTask: Check = {
	rule: 'away-on-task',
	severity: 'caution',
	about: 'a job due on a day when nobody can come',
	source: practice,
	find(seen) {
		const due = seen.plan.tasks.filter(
			({ date, state, kind }) => seen.run.away.includes(date) && state === 'planned' && kind !== 'observe'
		);
		return firstPer(due, ({ date }) => date).map((task) => {
			const others = due.filter(({ date }) => date === task.date);
			const tests = others.every(({ kind }) => kind === 'test');
			return {
				date: task.date,
				phase: task.phase,
				task: task.id,
				message: `You are away on ${task.date}, and ${others.map(({ text }) => text.charAt(0).toLowerCase() + text.slice(1)).join(', ')} ${others.length > 1 ? 'fall' : 'falls'} due.`,
				because: tests
					? 'Tests of the day before and the day after cover it as long as both are made: a test vouches for 48 h.'
					: 'Find a hand for that day, or move it to a day beside.'
			};
		});
	},
	repairs(draft, seen) {
		const task = seen.plan.tasks.find(({ id }) => id === draft.task);
		if (!task || seen.plan.tasks.some((other) => other.date === task.date && other.id !== task.id)) return [];
		const day = dayNumber(task.date);
		const beside = (by: number) => dayText(day + by);
		// a daily job is there on the day beside anyway: moving it would only drop it
		const free = [-1, 1].filter(
			(by) =>
				!seen.plan.tasks.some(
					({ phase, kind, date }) => phase === task.phase && kind === task.kind && date === beside(by)
				)
		);
		return free.map((by) => ({
			title: `Do it the day ${by < 0 ? 'before' : 'after'}`,
			cells: { [`moves|${task.id}`]: beside(by) }
		}));
	}
};

/** A second dose before the last egg has hatched, or after new worms lay. */
export const pulseGap: Check = {
	rule: 'pulse-gap',
	severity: 'caution',
	about: 'a pulse gap too early or too late for the life cycle at this temperature',
	source: 'life-cycle tables of the shelf',
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle }): Draft[] => {
			const { temperatureC } = seen.run.tank;
			const target = phase.kind === 'pulse' ? targetOf(phase, bottle) : null;
			const doses = seen.plan.tasks.filter(
				(task) => task.phase === phase.id && task.kind === 'dose' && !task.id.includes('.')
			);
			if (!target || temperatureC === null || doses.length < 2) return [];
			const bounds = gapBounds(target, temperatureC);
			if (!bounds.ok)
				return [
					{
						severity: 'note',
						date: null,
						phase: phase.id,
						cell: `phases.${phase.id}.repeat`,
						message: `No life cycle of ${target} is on record at ${figure(temperatureC, 1)} °C.`,
						because: `Ask, or keep to ${bounds.problem.expected}.`
					}
				];
			const { earliestDays, latestDays, because, source } = bounds.value;
			const wrong = doses.slice(1).find((dose, i) => {
				const gap = dayNumber(dose.date) - dayNumber(doses[i]?.date ?? dose.date);
				return gap < earliestDays || gap >= latestDays;
			});
			if (!wrong) return [];
			const gap = dayNumber(wrong.date) - dayNumber(doses[doses.indexOf(wrong) - 1]?.date ?? wrong.date);
			return [
				{
					severity: gap >= latestDays ? 'stop' : 'caution',
					date: wrong.date,
					phase: phase.id,
					cell: `phases.${phase.id}.repeat`,
					message: `The dose of ${wrong.date} comes ${gap} days after the one before; at ${figure(temperatureC, 1)} °C it must be day ${earliestDays} to ${latestDays - 1}.`,
					because: `${because}.`.replace(/\.\.$/, '.'),
					source
				}
			];
		}),
	repairs(draft, seen) {
		const phase = seen.run.phases.find(({ id }) => id === draft.phase);
		const bottle = bottleOf(seen, phase?.medicine);
		const target = phase && bottle ? targetOf(phase, bottle) : null;
		const bounds =
			target && seen.run.tank.temperatureC !== null ? gapBounds(target, seen.run.tank.temperatureC) : null;
		return bounds?.ok
			? [
					{
						title: `Dose every ${bounds.value.proposedDays} days`,
						cells: { [draft.cell ?? '']: `every ${bounds.value.proposedDays} d` }
					}
				]
			: [];
	}
};

/** Days between two doses of the same medicine, whatever row or entry gives them. */
export const doseTooSoon: Check = {
	rule: 'dose-too-soon',
	severity: 'stop',
	about: 'two full doses of a medicine while the first still acts',
	source: 'never double a bath dose (from memory)',
	find: (seen) =>
		(seen.walked?.walk.bottles ?? []).flatMap((bottle): Draft[] => {
			const series = seen.run.phases
				.filter(({ kind, medicine }) => kind === 'pulse' && medicine === bottle.id)
				.map(({ id }) => id);
			const doses = seen.plan.tasks.filter(
				({ phase, kind, id }) => kind === 'dose' && series.includes(phase) && !id.includes('.')
			);
			const hours = bottle.contactDays * 24;
			const soon = doses.find(
				(dose, i) =>
					i > 0 && (Date.parse(dose.at) - Date.parse(doses[i - 1]?.at ?? dose.at)) / 3_600_000 < hours
			);
			if (!soon) return [];
			return [
				{
					date: soon.date,
					phase: soon.phase,
					cell: `phases.${soon.phase}.repeat`,
					message: `${soon.text} on ${soon.date} falls inside the ${figure(hours, 0)} h that the dose before still acts.`,
					because: 'Two doses on top of each other are a double dose.'
				}
			];
		}),
	repairs: (draft) =>
		[7, 3, 2].map((days) => ({
			title: `Dose every ${days} days`,
			cells: { [draft.cell ?? '']: `every ${days} d` }
		}))
};

/** Tomonts release from day 3: a later move carries them along. */
export const transferGap: Check = {
	rule: 'transfer-gap',
	severity: 'stop',
	about: 'moves further apart than 72 hours with six hours of grace, or without a second tank',
	source: 'Colorni 1985, Dis. Aquat. Org. 1:19-22; six hours of grace: judgment, no source',
	find: (seen) =>
		seen.run.phases.flatMap((phase): Draft[] => {
			if (phase.kind !== 'transfer') return [];
			const moves = seen.plan.tasks.filter((task) => task.phase === phase.id && task.kind === 'transfer');
			const late = moves.find(
				(move, i) => i > 0 && (Date.parse(move.at) - Date.parse(moves[i - 1]?.at ?? move.at)) / 3_600_000 > 78
			);
			const drafts: Draft[] = [];
			if (late)
				drafts.push({
					date: late.date,
					phase: phase.id,
					cell: `phases.${phase.id}.repeat`,
					message: `The move of ${late.date} comes more than 78 h after the one before.`,
					because:
						'Cysts release from day 3 on: what hatched has found the fish again. 72 h is the gap; 86 h starts the series again.'
				});
			if (!seen.run.spare)
				drafts.push({
					severity: 'caution',
					date: null,
					phase: phase.id,
					cell: 'spare',
					message: 'A move needs a second tank; none is in the plan.',
					because: 'Two suffice if each is stripped, disinfected and dried between.'
				});
			return drafts;
		}),
	repairs: (draft) =>
		draft.cell === 'spare'
			? [{ title: 'Add a second tank', cells: { spare: { name: 'second tank' } } }]
			: [{ title: 'Move every 72 hours', cells: { [draft.cell ?? '']: 'every 3 d' } }]
};

/** Salt may rise by two parts per thousand a day. */
export const riseTooFast: Check = {
	rule: 'rise-too-fast',
	severity: 'stop',
	about: 'salinity raised faster than 2 ppt a day',
	source: practice,
	find: ({ run }) =>
		run.phases.flatMap((phase): Draft[] =>
			phase.kind === 'low-salinity' && (phase.risePptPerDay ?? 0) > 2
				? [
						{
							date: null,
							phase: phase.id,
							cell: `phases.${phase.id}.rise`,
							message: `A rise of ${figure(phase.risePptPerDay ?? 0, 1)} ppt a day is over 2.`,
							because: 'Fish lose water faster than their kidneys follow; down may be quick, up may not.'
						}
					]
				: []
		),
	repairs: (draft) => [{ title: 'Rise by 2 ppt a day', cells: { [draft.cell ?? '']: '2 ppt/d' } }]
};

/** A wall-clock time that a clock change skips. */
export const timeMoved: Check = {
	rule: 'time-moved',
	severity: 'note',
	about: 'a service at a local time that does not exist',
	source: 'RFC 5545 leaves it open; a dose is given on each of its days',
	find: ({ run, plan }) =>
		firstPer(
			plan.tasks.filter(({ time }) => !run.services.includes(time)),
			({ date }) => date
		).map((task) => ({
			date: task.date,
			phase: task.phase,
			task: task.id,
			message: `The clocks change on ${task.date}: the service moves to ${task.time}.`,
			because: 'The written time does not exist on that day.'
		}))
};

/** What cannot be placed on the calendar. */
export const neverEnds: Check = {
	rule: 'never-ends',
	severity: 'stop',
	about: 'a phase that cannot be placed, or never ends by itself',
	source: 'rule of this planner',
	find: (seen) => [
		...(seen.run.phases.length > 0 && !seen.walked
			? [
					{
						date: null,
						phase: seen.run.phases[0]?.id ?? null,
						cell: `phases.${seen.run.phases[0]?.id}.starts`,
						message: 'No row says on which day the run begins.',
						because: 'One row needs a date: `on` and a day.'
					}
				]
			: []),
		...(seen.walked?.unplaced ?? []).map((id): Draft => {
			const span = seen.plan.phases.find((phase) => phase.id === id);
			const begun = span?.from != null;
			return {
				date: span?.from ?? null,
				phase: id,
				cell: `phases.${id}.${begun ? 'change' : 'starts'}`,
				message: begun
					? `${id} would never end: nothing in the plan brings about what it waits for.`
					: `${id} cannot be placed: what it waits for never ends.`,
				because: begun
					? 'A wash-out needs changes or a loss that clears it; a hold needs tests and a level inside its window; a low salinity needs its level.'
					: 'Mend the row it waits for.'
			};
		}),
		...(seen.walked?.cut
			? [
					{
						date: null,
						phase: null,
						message: 'The plan is cut at 400 days.',
						because: 'No quarantine lasts that long: one of its rows must be shorter.'
					}
				]
			: [])
	],
	repairs: (draft, { run }) => {
		const phase = run.phases.find(({ id }) => id === draft.phase);
		return phase?.kind === 'washout' && draft.cell?.endsWith('change')
			? [{ title: 'Change half daily', cells: { [draft.cell]: '50% daily' } }]
			: [];
	}
};

/** New fish in a running tank begin the run anew for all of them. */
export const fishAdded: Check = {
	rule: 'fish-added',
	severity: 'caution',
	about: 'fish that arrive after the run has begun',
	source: 'all in, all out; new fish restart the clock (from memory)',
	find: ({ run, plan }) =>
		run.lots.flatMap((lot): Draft[] => {
			const courses = plan.phases.filter(
				({ id, from }) =>
					from !== null &&
					['hold', 'pulse', 'daily', 'low-salinity', 'transfer'].includes(
						run.phases.find((phase) => phase.id === id)?.kind ?? ''
					)
			);
			const into = courses.find(({ from }) => lot.arrived !== null && from !== null && lot.arrived > from);
			if (!into) return [];
			return [
				{
					date: lot.arrived,
					phase: into.id,
					cell: `lots.${lot.id}.arrived`,
					message: `${lot.what || lot.id} join on ${lot.arrived}, after ${into.id} has begun on ${into.from}.`,
					because:
						'What they carry has missed the course so far: the course counts from their arrival for all.'
				}
			];
		})
};
