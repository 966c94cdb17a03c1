import type { Band, CourseDay, CourseJob } from './paper-course.ts';
import type { Rows } from './paper-rows.ts';
import { between, line, says, type Hole, type Said } from './says.ts';

/** What a job raises a level from and to, mg/L. */
interface Raise {
	from: Band;
	to: Band;
}

const level = ([least, most]: Band): Hole => between(least, most, 3);
const single = (value: number): Band => [value, value];

/** What a dose raises, from the levels of its day: a change comes first. */
export function raiseOf({ kind }: CourseJob, { levels, waterL }: CourseDay): Raise | null {
	const [before, after] = [levels[0], levels.at(-1)];
	if (!before || !after) return null;
	const kept = 1 - waterL / 120;
	if (kind === 'copper')
		return { from: [before.copper[0] * kept, before.copper[1] * kept], to: after.copper };
	if (kind === 'fluke') return { from: single(before.praziquantel * kept), to: single(after.praziquantel) };
	return null;
}

const jug = 'Thin the dose in a jug of tank water and pour it into the flow over some minutes.';

function whyCopper({ from, to }: Raise, day: number): Said {
	const step = day - 2;
	// thirds of the aim of 0.18 mg/L
	if (step <= 3)
		return line(
			`Step ${step} of 3: from `,
			level(from),
			' mg/L to ',
			level(to),
			` mg/L, on the way to 0.18 mg/L. ${jug}`
		);
	return line(
		'Back from ',
		level(from),
		' mg/L to ',
		level(to),
		` mg/L: aim 0.18, window 0.15 to 0.2 mg/L. ${jug}`
	);
}

/** 300 mg, stirred up in 0.4 g/L (common practice, no source), to the next tenth of a litre. */
const jugL = Math.ceil((300 / 400) * 10) / 10;

function whyChange({ kind }: CourseJob, { waterL, levels }: CourseDay, rows: Rows, day: number): Said {
	const tan = level(levels[0]?.tan ?? [0, 0]);
	const percent = `${(waterL / 120) * 100} % of the water`;
	if (kind === 'wash' || day <= rows.copper[1])
		return says`${percent}, as the sheet says; before it total ammonia ${tan} mg/L N, nitrate 0 mg/L.`;
	return says`${percent}: before it total ammonia ${tan} mg/L N, nitrate 0 mg/L; without it a limit or seven days would be passed before the next chance.`;
}

/** Why a job is there, where a figure is in it. */
export function whyOf(job: CourseJob, day: CourseDay, rows: Rows): Said[] {
	const raise = raiseOf(job, day);
	switch (job.kind) {
		case 'move':
			return [
				says`Bring the tank to the bag’s salinity and temperature, float the bag closed, open it and move the fish within 10 to 15 minutes: in an opened bag the pH climbs and its ammonia turns toxic. Bag water goes down the drain; then raise by 2 ppt a day at most. Dim light, no food for the first hours. Note count, mass, breaths a minute, signs and a photo.`
			];
		case 'copper':
			return raise ? [whyCopper(raise, day.day)] : [];
		case 'fluke': {
			const n = rows.flukes.indexOf(day.day) + 1;
			return raise
				? [
						says`Dose ${n} of 2: the full 2.5 mg/L, added to what may be left (${level(raise.from)}). Stir it up in at least ${jugL} L of tank water first, then pour it in; stir what settles.`
					]
				: [];
		}
		case 'change':
		case 'wash':
			return [whyChange(job, day, rows, day.day)];
		case 'clean':
			// the course of a disinfection (common practice, no source)
			return [
				says`Chlorine 200 mg/L for 10 minutes, rinse, dry 24 hours: the tank is free again the day after (common practice, no source). No dechlorinator may be left for the next copper.`
			];
		default:
			return [];
	}
}

/** A job in words, its amount with it. */
export function wordsOf({ kind, what, mL = [0, 0] }: CourseJob): Said {
	const plain = what.replaceAll('₃', '3');
	switch (kind) {
		case 'look':
			return says`Look at every fish and log the signs`;
		case 'test':
			return says`Test ${plain.replaceAll(' · ', ', ')}`;
		case 'change':
			return says`Change ${what} L`;
		case 'wash':
			return says`Wash out ${what} L`;
		case 'copper':
			return line('Ionic copper ', mL[0] === mL[1] ? mL[0].toFixed(1) : between(mL[0], mL[1], 1), ' mL');
		case 'fluke':
			return says`Praziquantel ${what} mg`;
		case 'move':
			return says`${what}`;
		case 'equipment':
			return what === 'carbon in' ? says`Put fresh carbon in` : says`Take the carbon out`;
		case 'release':
			return says`Release the fish`;
		case 'clean':
			return says`Strip, disinfect and dry the tank and its tools`;
	}
}
