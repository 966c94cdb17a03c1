import { stay, suspects } from '../../formulary/index.ts';
import { dayNumber, dayText, readLog, type Fact } from '../../run/index.ts';
import { dayOfInstant } from '../clock.ts';
import { figure, levelText } from '../words.ts';
import { bottleOf, dosing, practice, type Check, type Draft, type Seen } from './check.ts';

const logOf = ({ run, nowMs }: Seen): Fact[] => readLog(run.log).filter(({ atMs }) => atMs <= nowMs);
const dayAt = ({ run }: Seen, atMs: number) => dayText(dayOfInstant(run.timeZone, atMs));

/** A dose nobody answered for: what is in the water is not known. */
export const doseUnanswered: Check = {
	rule: 'dose-unanswered',
	severity: 'stop',
	about: 'a dose of an earlier service that nobody logged',
	source: 'never double a bath dose; top up from a measurement (from memory)',
	find: (seen) =>
		(seen.walked?.walk.doubts ?? []).flatMap((doubt, i): Draft[] => {
			const due = doubt.unanswered === null ? undefined : seen.walked?.walk.due.get(doubt.unanswered);
			const bottle = seen.walked?.walk.bottles[i];
			if (!due || !bottle) return [];
			return [
				{
					date: due.service.date,
					phase: due.job.phase,
					task: due.task.id,
					message: `It is not known whether ${due.task.text} of ${due.service.date} was given.`,
					because: `No later dose of ${bottle.row.name.toLowerCase()} is figured until it is logged as done or missed, or the level is read.`
				}
			];
		})
};

/** A reading that cannot be true, or that is not safe: no dose until a retest. */
export const readingDoubtful: Check = {
	rule: 'reading-doubtful',
	severity: 'stop',
	about: 'a reading above the ceiling, or ten-fold off the forecast',
	source: 'judgment, no source',
	find: (seen) =>
		(seen.walked?.walk.doubts ?? []).flatMap((doubt, i): Draft[] => {
			const bottle = seen.walked?.walk.bottles[i];
			const reading = bottle && seen.walked?.walk.readings.get(bottle.measuredAs);
			if (!doubt.implausible || !bottle || !reading) return [];
			return [
				{
					date: dayText(Math.floor(reading.wall)),
					phase: seen.run.phases.find(({ medicine }) => medicine === bottle.id)?.id ?? null,
					message: `${bottle.row.name}: ${doubt.implausible}. No dose until a retest.`,
					because:
						bottle.ceiling !== null && reading.value > bottle.ceiling
							? 'If it is true, fish are in danger: look at them, change water, test again. Give nothing to make up for the change.'
							: 'A wrong unit, scale or slip of the pen: test again before anything is given.'
				}
			];
		})
};

/** Copper read on the other scale. */
export const copperScale: Check = {
	rule: 'copper-scale',
	severity: 'stop',
	about: 'a reading on the wrong copper scale, chelated against ionic',
	source: 'never mix target scales (veterinary manual text; from memory)',
	find(seen) {
		const bottle = seen.walked?.walk.bottles.find(({ measuredAs }) => measuredAs === 'Cu');
		const own = bottle?.row.active === 'copper-chelated' ? 'chelated' : 'ionic';
		return logOf(seen).flatMap((entry): Draft[] =>
			bottle &&
			entry.kind === 'reading' &&
			entry.what === 'Cu' &&
			(entry.as === 'ionic' || entry.as === 'chelated') &&
			entry.as !== own
				? [
						{
							date: dayAt(seen, entry.atMs),
							phase: seen.run.phases.find(({ medicine }) => medicine === bottle.id)?.id ?? null,
							message: `The reading of ${levelText(bottle, entry.value)} is on the ${entry.as} scale; the bottle is ${own} copper.`,
							because:
								'A kit for free copper hardly sees chelated copper, and chelated levels are many times the ionic ones. Correct the entry.'
						}
					]
				: []
		);
	}
};

/** A fish that refuses for days. */
export const refusesFood: Check = {
	rule: 'refuses-food',
	severity: 'caution',
	about: 'food refused on three days or more in a row',
	source: practice,
	find(seen) {
		const days = new Map<string, boolean>();
		for (const entry of logOf(seen))
			if (entry.kind === 'observation' && (entry.appetite !== undefined || entry.signs.length > 0))
				days.set(dayAt(seen, entry.atMs), entry.appetite === 'refused' || entry.signs.includes('off-feed'));
		let run: string[] = [];
		for (const [day, refused] of [...days].sort()) run = refused ? [...run, day] : [];
		if (run.length < 3) return [];
		return [
			{
				date: run.at(-1) ?? null,
				phase: null,
				message: `Food has been refused on ${run.length} looks in a row, from ${run[0]} on.`,
				because:
					'Lower copper or pause before it weakens; what is not eaten rots and makes ammonia. Ask a vet.'
			}
		];
	}
};

/** Copper only once the fish eat, unless signs leave no time. */
export const copperBeforeEating: Check = {
	rule: 'copper-before-eating',
	severity: 'note',
	about: 'copper on the day the fish arrive',
	source: practice,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from }): Draft[] => {
			const sick =
				seen.run.lots.some(({ signs }) => signs.some((sign) => sign !== 'none')) ||
				logOf(seen).some(
					(entry) => entry.kind === 'observation' && entry.signs.some((sign) => sign !== 'none')
				);
			const fresh = seen.run.lots.find(({ arrived }) => arrived !== null && arrived >= from);
			if (bottle.measuredAs !== 'Cu' || sick || !fresh || phase.kind !== 'hold') return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.starts`,
					message: `Copper begins on ${from}, the day ${fresh.what || 'the fish'} arrive.`,
					because: 'Fish that show no signs are left to eat and settle first; none is dropped into copper.'
				}
			];
		}),
	repairs: (draft, { run }) => {
		const arrived = run.lots
			.map((lot) => lot.arrived)
			.filter((day) => day !== null)
			.sort()
			.at(-1);
		return arrived
			? [
					{
						title: 'Begin three days later',
						cells: { [draft.cell ?? '']: `on ${dayText(dayNumber(arrived) + 3)}` }
					}
				]
			: [];
	}
};

/** A course that does not reach what the signs point to. */
export const courseMissesSuspect: Check = {
	rule: 'course-misses-suspect',
	severity: 'caution',
	about: 'signs that point to a parasite no medicine of the run treats',
	source: 'the shelf’s tables of signs and of what treats what',
	find(seen) {
		const seenSigns = [
			...seen.run.lots.flatMap(({ signs, group }) => signs.map((sign) => ({ sign, group }))),
			...logOf(seen).flatMap((entry) =>
				entry.kind === 'observation'
					? entry.signs.map((sign) => ({
							sign,
							group: seen.run.lots.find(({ id }) => id === entry.lot)?.group ?? null
						}))
					: []
			)
		];
		const [suspect] = suspects(
			seenSigns.map(({ sign }) => sign),
			seenSigns[0]?.group ?? null
		);
		if (!suspect || seen.run.phases.length === 0) return [];
		const rows = seen.run.phases.flatMap(({ medicine }) => bottleOf(seen, medicine)?.row ?? []);
		const methods = seen.run.phases.some(({ kind }) => kind === 'low-salinity' || kind === 'transfer');
		if (rows.some(({ treats }) => treats[suspect.target])) return [];
		if (methods && suspect.target === 'cryptocaryon') return [];
		const misses = rows.find(({ doesNotTreat }) => doesNotTreat[suspect.target]);
		return [
			{
				date: null,
				phase: null,
				cell: 'phases',
				message: `The signs point to ${suspect.target}, which nothing in this run treats.`,
				because: misses
					? `${misses.name}: ${misses.doesNotTreat[suspect.target]?.value}.`.replace(/\.\.$/, '.')
					: `${suspect.because}. Have it confirmed, then choose a course.`
			}
		];
	}
};

/** Two deaths in 48 hours call for a vet. */
export const deathsClose: Check = {
	rule: 'deaths-close',
	severity: 'caution',
	about: 'two deaths within 48 hours, or breathing over 100 a minute',
	source: practice,
	find(seen) {
		const log = logOf(seen);
		const deaths = log.flatMap((entry) =>
			entry.kind === 'loss' ? Array.from({ length: entry.count }, () => entry.atMs) : []
		);
		const close = deaths.find((at, i) => i > 0 && at - (deaths[i - 1] ?? at) <= 48 * 3_600_000);
		const breathless = log.find(
			(entry) => entry.kind === 'observation' && (entry.breathsPerMinute ?? 0) > 100
		);
		return [
			...(close === undefined
				? []
				: [
						{
							date: dayAt(seen, close),
							phase: null,
							message: 'Two fish have died within 48 hours.',
							because:
								'Call a veterinarian and have them examined the same day; keep them cold, not frozen. Test, and change water: a dead 25 g fish holds about 0.7 g of nitrogen.'
						}
					]),
			...(breathless
				? [
						{
							date: dayAt(seen, breathless.atMs),
							phase: null,
							message: 'A fish breathes more than 100 times a minute.',
							because: 'Air first, then test; call a veterinarian.'
						}
					]
				: [])
		];
	}
};

/** Release only when the days are full; what only the future can bring makes no stop before its day. */
export const releaseEarly: Check = {
	rule: 'release-early',
	severity: 'caution',
	about: 'release before 30 days in all, 14 clean days, or into another salinity',
	source:
		'Hadfield & Clayton 2011, J. Zoo Wildl. Med. 42:641-650 (30 days); 14 clean days and 1 ppt: common practice, no source',
	find(seen) {
		const { release, begins } = seen.plan;
		const phase = seen.run.phases.find(({ kind }) => kind === 'release')?.id ?? null;
		if (!release || !begins || !phase) return [];
		const drafts: Draft[] = [];
		const arrived =
			seen.run.lots
				.flatMap((lot) => lot.arrived ?? [])
				.sort()
				.at(-1) ?? begins;
		const total = dayNumber(release) - dayNumber(arrived);
		if (total < stay.totalDays.value)
			drafts.push({
				date: release,
				phase,
				cell: `phases.${phase}.starts`,
				message: `Release on ${release} is day ${total} after arrival; ${stay.totalDays.value} are the least.`,
				because: 'Most public aquariums hold every arrival at least 30 days.'
			});
		const clean = dayNumber(release) - dayNumber(lastTreated(seen, release));
		if (clean < stay.cleanDays.value)
			drafts.push({
				date: release,
				phase,
				cell: `phases.${phase}.starts`,
				message: `Only ${clean} days of watching lie between the last dose or sign and release; ${stay.cleanDays.value} are asked.`,
				because: 'Each sign and each new medicine sets the watch back to its first day.'
			});
		const last = seen.plan.levels.at(-1)?.salinityPpt ?? null;
		const home = seen.run.source.salinityPpt;
		if (last !== null && home !== null && Math.abs(last - home) > stay.displayWithinPpt.value)
			drafts.push({
				date: release,
				phase,
				cell: 'source.salinity',
				message: `The tank is at ${figure(last, 1)} ppt at release, the display at ${figure(home, 1)}.`,
				because: 'More than 1 ppt apart is a shock.'
			});
		return drafts;
	},
	repairs(draft, seen) {
		if (!draft.cell?.endsWith('.starts')) return [];
		const watch = seen.run.phases.findLast(({ kind }) => kind === 'observe' || kind === 'settle');
		const span = seen.plan.phases.find(({ id }) => id === watch?.id);
		if (!watch || !span?.from || !span.to || !seen.plan.release || !seen.plan.begins) return [];
		const days = dayNumber(span.to) - dayNumber(span.from) + 1;
		const arrived =
			seen.run.lots
				.flatMap((lot) => lot.arrived ?? [])
				.sort()
				.at(-1) ?? seen.plan.begins;
		const lack = Math.max(
			stay.totalDays.value - (dayNumber(seen.plan.release) - dayNumber(arrived)),
			stay.cleanDays.value - (dayNumber(seen.plan.release) - dayNumber(lastTreated(seen, seen.plan.release)))
		);
		return [
			{ title: `Watch ${lack} days longer`, cells: { [`phases.${watch.id}.lasts`]: `${days + lack} d` } }
		];
	}
};

/** The day after the last dose, dip, or logged sign before release. */
function lastTreated(seen: Seen, release: string): string {
	const doses = seen.plan.tasks
		.filter(({ kind, date }) => (kind === 'dose' || kind === 'dip' || kind === 'transfer') && date < release)
		.map(({ date }) => date);
	const held = seen.plan.phases
		.filter(
			({ id, to }) =>
				to !== null &&
				to < release &&
				['hold', 'low-salinity', 'daily'].includes(
					seen.run.phases.find((phase) => phase.id === id)?.kind ?? ''
				)
		)
		.map(({ to }) => to ?? '');
	const signs = logOf(seen).flatMap((entry) =>
		entry.kind === 'observation' && entry.signs.some((sign) => sign !== 'none')
			? [dayAt(seen, entry.atMs)]
			: []
	);
	return [...doses, ...held, ...signs].sort().at(-1) ?? seen.plan.begins ?? release;
}

/** On its day, release asks for an empty list. */
export const releaseOpen: Check = {
	rule: 'release-open',
	severity: 'stop',
	about: 'release while a task is overdue or the last look was not clean',
	source: 'rule of this planner',
	find(seen) {
		const task = seen.plan.tasks.find(({ kind }) => kind === 'release');
		if (!task || Date.parse(task.at) > seen.nowMs) return [];
		const open = seen.plan.tasks.filter(
			({ state, at, kind }) =>
				state === 'open' && at < task.at && ['dose', 'test', 'dip', 'transfer', 'washout'].includes(kind)
		);
		const last = logOf(seen).findLast((entry) => entry.kind === 'observation');
		const dirty = last?.kind === 'observation' && last.signs.some((sign) => sign !== 'none');
		return [
			...(open.length > 0
				? [
						{
							date: task.date,
							phase: task.phase,
							task: task.id,
							message: `${open.length} job${open.length > 1 ? 's are' : ' is'} still open before release, the first ${open[0]?.text} of ${open[0]?.date}.`,
							because: 'Log them as done or missed: a run without its record cannot vouch for the fish.'
						}
					]
				: []),
			...(dirty
				? [
						{
							date: task.date,
							phase: task.phase,
							task: task.id,
							message: 'The last look at the fish was not clean.',
							because: 'Watch on until 14 days without a sign have passed.'
						}
					]
				: [])
		];
	}
};
