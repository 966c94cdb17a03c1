import { callVet, carcassNitrogenShare, unsourced } from '../../formulary/index.ts';
import { dayNumber, type Fact } from '../../run/index.ts';
import { bodyOf, lotOf } from '../carcass.ts';
import { bodyWords } from '../carcass-words.ts';
import { figure } from '../words.ts';
import {
	dayAt,
	firstPer,
	giving,
	logOf,
	MS_PER_HOUR,
	sick,
	type Check,
	type Draft,
	type Seen
} from './check.ts';

type Look = Extract<Fact, { kind: 'observation' }>;

const looks = (seen: Seen): Look[] =>
	logOf(seen).flatMap((entry) => (entry.kind === 'observation' ? [entry] : []));
const whole = 'the fish';
const who = (seen: Seen, lot: string | undefined) =>
	seen.run.lots.find(({ id }) => id === lot)?.what || lot || whole;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Days in a row without food after which a word is due (judgment, no source). */
const HUNGRY_DAYS = 3;

/** A fish that refuses for days. */
export const refusesFood: Check = {
	rule: 'refuses-food',
	severity: 'caution',
	appliesTo: 'log',
	about: `food refused on ${HUNGRY_DAYS} days or more in a row`,
	source: unsourced.J,
	find: (seen) =>
		firstPer(looks(seen), ({ lot }) => lot ?? '').flatMap(({ lot }): Draft[] => {
			const asked = looks(seen).filter(
				(look) => look.lot === lot && (look.appetite !== undefined || look.signs.includes('off-feed'))
			);
			const last = asked.at(-1);
			const eaten = asked.findLastIndex((look) => !refused(look));
			const since = asked[eaten + 1];
			if (!last || !since) return [];
			const [from, to] = [dayAt(seen, since.atMs), dayAt(seen, last.atMs)];
			const days = dayNumber(to) - dayNumber(from) + 1;
			if (days < HUNGRY_DAYS) return [];
			return [
				{
					date: to,
					phase: null,
					message: `${capital(who(seen, lot))} refused food from ${from} to ${to}, ${days} days.`,
					because:
						'Hold the medicine where it is and raise nothing; offer living food, take out what is left (it rots to ammonia), and ask a veterinarian.'
				}
			];
		})
};

const refused = ({ appetite, signs }: Look): boolean =>
	appetite === 'refused' || (appetite === undefined && signs.includes('off-feed'));

/** When to call a veterinarian. */
export const callTheVet: Check = {
	rule: 'call-the-vet',
	severity: 'stop',
	appliesTo: 'log',
	about: `${callVet.deathsIn48Hours.value} deaths in 48 hours, more than ${callVet.breathsPerMinute.value} breaths a minute, or no answer to a treatment in ${callVet.hoursWithoutAnswer.value} hours`,
	source: callVet.deathsIn48Hours.source,
	find: (seen) => [...deaths(seen), ...breathless(seen), ...noAnswer(seen)]
};

const HOURS = 48;

function deaths(seen: Seen): Draft[] {
	const each = logOf(seen).flatMap((entry) =>
		entry.kind === 'loss' ? Array.from({ length: entry.count }, () => entry) : []
	);
	const least = callVet.deathsIn48Hours.value;
	const last = each.findLast(
		({ atMs }, i) => atMs - (each[i - least + 1]?.atMs ?? -Infinity) <= HOURS * MS_PER_HOUR
	)?.atMs;
	if (last === undefined) return [];
	const dead = each.filter(({ atMs }) => atMs <= last && last - atMs <= HOURS * MS_PER_HOUR);
	// deaths of fish that show signs cannot wait (judgment, no source)
	const signs = [...seen.run.lots, ...looks(seen)].flatMap((one) => sick(one.signs));
	return [
		{
			severity: signs.length > 0 ? 'stop' : 'caution',
			date: dayAt(seen, last),
			phase: null,
			message: `${dead.length} fish died within ${HOURS} hours, up to ${dayAt(seen, last)}.`,
			because: `Call a veterinarian and have them examined the same day, kept cold and not frozen. ${rotted(seen, dead, last)}`,
			source: `${callVet.deathsIn48Hours.source}; what a body holds: ${carcassNitrogenShare.source}`
		}
	];
}

/** What the bodies of different lots may do to this tank, each lot at its own mean mass. */
function rotted({ run, plan }: Seen, dead: readonly { lot: string }[], atMs: number): string {
	const then = plan.levels.findLast(({ at }) => Date.parse(at) <= atMs)?.volumeL ?? run.tank.netL;
	const bodies = [...Map.groupBy(dead, ({ lot }) => lot)].flatMap(([lot, own]) => {
		const body = bodyOf(lotOf(run, lot), then);
		return body ? [bodyWords(body, own.length)] : [];
	});
	return bodies.join(' ') || 'Test ammonia and change water: what a body holds rots to ammonia.';
}

/** Only what the latest count of breaths says. */
function breathless(seen: Seen): Draft[] {
	const last = looks(seen).findLast(({ breathsPerMinute }) => breathsPerMinute !== undefined);
	const most = callVet.breathsPerMinute.value;
	if (!last?.breathsPerMinute || last.breathsPerMinute <= most) return [];
	return [
		{
			severity: 'caution',
			date: dayAt(seen, last.atMs),
			phase: null,
			message: `${capital(who(seen, last.lot))} breathed ${figure(last.breathsPerMinute, 0)} times a minute on ${dayAt(seen, last.atMs)}; over ${most} calls for a veterinarian.`,
			because: 'Air first, then test ammonia and the medicine; give nothing new before that.'
		}
	];
}

/** A sign that was there when the treatment began and still is, three days on. */
function noAnswer(seen: Seen): Draft[] {
	const last = looks(seen).findLast(({ signs }) => signs.length > 0);
	const since = callVet.hoursWithoutAnswer.value;
	if (!last) return [];
	for (const { phase, from } of giving(seen)) {
		const first = seen.plan.tasks.find(
			(task) => task.phase === phase.id && ['dose', 'dip', 'feed'].includes(task.kind)
		);
		const began = first ? Date.parse(first.at) : Infinity;
		const hours = (last.atMs - began) / MS_PER_HOUR;
		const early = looks(seen)
			.filter(({ atMs }) => atMs <= began + 24 * MS_PER_HOUR)
			.flatMap(({ signs }) => sick(signs));
		const atDoor = seen.run.lots.flatMap(({ signs }) => sick(signs));
		const still = sick(last.signs).find((sign) => early.includes(sign) || atDoor.some((one) => one === sign));
		if (hours < since || !still) continue;
		return [
			{
				severity: 'caution',
				date: dayAt(seen, last.atMs),
				phase: phase.id,
				message: `${capital(still.replaceAll('-', ' '))} still show ${figure(hours, 0)} h after phases.${phase.id} began on ${from}.`,
				because: `A treatment that shows nothing in ${since} h may be the wrong one: call a veterinarian, look at skin and gills under a microscope.`
			}
		];
	}
	return [];
}
