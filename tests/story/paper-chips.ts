import { dated, fullDay } from './dates.ts';
import type { CourseDay, CourseJob } from './paper-course.ts';
import type { Find } from './paper-outlook.ts';
import { between, line, maybe, says, type Hole, type Said } from './says.ts';

/** A job as the calendar has it: spoken with its kind in front; what has an amount shows it. */
interface Chip {
	spoken: (string | Hole)[];
	shown: (string | Hole)[];
	perhaps: boolean;
}

const chip = (spoken: (string | Hole)[], shown: (string | Hole)[] = [], perhaps = false): Chip => ({
	spoken,
	shown,
	perhaps
});

function chipOf({ kind, what, mL = [0, 0], perhaps = false }: CourseJob): Chip {
	const amount = mL[0] === mL[1] ? mL[0].toFixed(1) : between(mL[0], mL[1], 1);
	switch (kind) {
		case 'look':
			return chip(['Look Look']);
		case 'test':
			return chip([`Test ${what}`]);
		case 'change':
			return chip([`Change water ${what} L`], [`${what} L`]);
		case 'wash':
			return chip([`Wash out ${what} L`], [`${what} L`]);
		case 'copper':
			return chip(['Dose Cu ', amount, ' mL'], ['Cu ', amount, ' mL'], perhaps);
		case 'fluke':
			return chip([`Dose PZQ ${what} mg`], [`PZQ ${what} mg`]);
		case 'move':
			return chip([`Move ${what}`], [what]);
		case 'equipment':
			return chip([`Equipment ${what}`]);
		case 'release':
			return chip(['Release']);
		case 'clean':
			return chip(['Clean Strip, disinfect and dry the tank and its tools']);
	}
}

/** What nobody can say yet may be missing, its comma with it. */
const open = (pieces: (string | Hole)[]): Hole => {
	const inner = line(...pieces);
	return {
		text: `[${inner.text}]`,
		pattern: `(?:, [^,]*)?`,
		fits: (seen) => seen === '' || inner.fits(seen.slice(2))
	};
};

/** Everything with a figure on a day of the calendar; `finds`: what the checks say of it. */
export function dayLines({ day, jobs, away }: CourseDay, finds: readonly Find[]): Said[] {
	const chips = jobs.map(chipOf);
	const spoken = chips.flatMap(({ spoken, perhaps }, n) =>
		perhaps ? [open(spoken)] : [n > 0 ? ', ' : '', ...spoken]
	);
	return [
		line(
			`${fullDay(day)}. ${away ? 'away. ' : ''}`,
			...(chips.length > 0 ? spoken : ['nothing due']),
			...finds.flatMap(({ heard }, n) => [n === 0 ? '. ' : ' ', ...heard])
		),
		says`${dated(day).split(' ')[0] ?? ''}`,
		...chips.flatMap(({ shown, perhaps }) =>
			shown.length === 0 ? [] : [perhaps ? maybe(line(...shown)) : line(...shown)]
		)
	];
}
