import { toxicShare, type HandTank } from './hand-tank.ts';
import { isChangeDay, watchTests, within, type Rows } from './paper-rows.ts';
import { changesOf, type Change } from './paper-watch.ts';

/** A level that paper knows within bounds. */
export type Band = readonly [least: number, most: number];

/** Levels in mg/L at one moment. */
export interface Levels {
	toxic: Band;
	tan: Band;
	copper: Band;
	praziquantel: number;
}

/** A job of the run, behind or ahead, as the calendar has it. */
export interface CourseJob {
	row: keyof Rows;
	kind: 'look' | 'test' | 'change' | 'wash' | 'copper' | 'fluke' | 'move' | 'equipment' | 'release' | 'clean';
	/** what is measured, litres, what goes in or out */
	what: string;
	/** mL of copper */
	mL?: Band;
	/** nobody can say yet whether it is needed */
	perhaps?: boolean;
	/** due by now and not answered */
	open?: boolean;
}

export interface CourseDay {
	day: number;
	jobs: CourseJob[];
	waterL: number;
	/** nobody came */
	away: boolean;
	/** before its service, and after each thing done to the water */
	levels: Levels[];
}

/** Copper may be lost by 0 to 10 % a day (judgment, no source), once a reading has come out low; until tomorrow by as much as was ever read. */
const keepsAtLeast = 0.9;

const test = (row: keyof Rows, ...what: string[]): CourseJob => ({
	row,
	kind: 'test',
	what: what.join(' · ')
});

interface Water {
	tan: number;
	copper: [number, number];
	praziquantel: number;
	/** what the ammonia may be off by, mg/L: half a thousandth for the last reading, and as much for each day since */
	off: number;
}

/** Every day from tomorrow to the release, as the rules plan it. */
export function daysAhead(
	tank: HandTank,
	today: number,
	rows: Rows,
	known: readonly Change[] | null,
	/** mg/L of copper from a dose that is open, taken as given until the next service */
	open: number
): CourseDay[] {
	const { litres } = tank;
	const water: Water = {
		tan: tank.tanMg,
		copper: [tank.copperMg / litres + open, tank.copperMg / litres + open],
		praziquantel: tank.praziquantelMg,
		off: 0.0005
	};
	const days: CourseDay[] = [];
	let changes = known;
	for (let day = today + 1; day <= rows.release[1]; day++) {
		water.tan += tank.tanMgPerDay;
		water.off += 0.0005;
		if (tank.keeps < 1) water.copper[0] *= day === today + 1 ? tank.keeps : keepsAtLeast;
		if (within(day, rows.watch))
			changes ??= changesOf({
				tanMg: water.tan,
				tanMgPerDay: tank.tanMgPerDay,
				litres,
				from: rows.watch[0],
				to: rows.watch[1],
				changed: rows.wash[1] - 1
			});
		const percent = percentOf(day, rows, changes ?? []);
		const before = levelsOf(water, litres);
		const dose = thin(water, 1 - percent / 100, day, rows, tank);
		days.push({
			day,
			jobs: jobsAhead(day, rows, (percent / 100) * litres, dose),
			waterL: (percent / 100) * litres,
			away: false,
			levels: [before, levelsOf(water, litres)]
		});
	}
	return days;
}

function percentOf(day: number, rows: Rows, changes: readonly Change[]): number {
	if (isChangeDay(day, rows)) return 25;
	if (within(day, rows.wash)) return day < rows.wash[1] ? 50 : 0;
	return changes.find((one) => one.day === day)?.percent ?? 0;
}

/** A change, and after it what is given; answers with the copper in mL. */
function thin(water: Water, kept: number, day: number, rows: Rows, tank: HandTank): Band {
	water.tan *= kept;
	water.off *= kept;
	water.praziquantel *= kept;
	const [least, most] = [water.copper[0] * kept, water.copper[1] * kept];
	water.copper = [least, most];
	if ((rows.flukes as readonly number[]).includes(day)) water.praziquantel += 2.5 * tank.litres;
	if (!within(day, rows.copper)) return [0, 0];
	// thirds of the aim of 0.18 mg/L, and at the aim from then on
	const aim = Math.min(0.06 * (day - 2), 0.18);
	const dose: Band = [tank.mLFor(aim - most), tank.mLFor(aim - least)];
	const step = dose[0] === dose[1] ? 0 : tank.riseOf(0.1);
	water.copper =
		step > 0
			? [Math.max(least, aim - step), Math.max(most, aim)]
			: [least + tank.riseOf(dose[0]), most + tank.riseOf(dose[0])];
	return dose;
}

const levelsOf = ({ tan, copper, praziquantel, off }: Water, litres: number): Levels => {
	const tanBand: Band = [Math.max(0, tan / litres - off), tan / litres + off];
	return {
		tan: tanBand,
		toxic: [tanBand[0] * toxicShare, tanBand[1] * toxicShare],
		copper: [copper[0], copper[1]],
		praziquantel: praziquantel / litres
	};
};

function jobsAhead(day: number, rows: Rows, waterL: number, mL: Band): CourseJob[] {
	const litres = String(waterL);
	if (within(day, rows.settle)) {
		const look: CourseJob = { row: 'settle', kind: 'look', what: '' };
		const move: CourseJob = { row: 'settle', kind: 'move', what: 'Take in 4 banded cardinalfish' };
		return [...(day === 2 ? [look] : []), test('settle', 'NH₃'), ...(day === 0 ? [move] : [])];
	}
	if (within(day, rows.copper))
		return [
			test('copper', 'Cu', 'NH₃'),
			...(waterL > 0 ? [{ row: 'copper', kind: 'change', what: litres } as const] : []),
			...(mL[1] > 0 ? [{ row: 'copper', kind: 'copper', what: '', mL, perhaps: mL[0] === 0 } as const] : []),
			...((rows.flukes as readonly number[]).includes(day)
				? [{ row: 'flukes', kind: 'fluke', what: '300' } as const]
				: [])
		];
	if (within(day, rows.wash))
		return [
			test('wash', 'Cu'),
			...(waterL > 0 ? [{ row: 'wash', kind: 'wash', what: litres } as const] : []),
			...(day === rows.wash[0] ? [{ row: 'wash', kind: 'equipment', what: 'carbon in' } as const] : []),
			...(day === rows.wash[1] ? [{ row: 'wash', kind: 'equipment', what: 'carbon out' } as const] : [])
		];
	if (within(day, rows.watch)) {
		const what = watchTests(day, rows);
		return [
			...(day === rows.watch[1] ? [{ row: 'watch', kind: 'look', what: '' } as const] : []),
			...(what.length > 0 ? [test('watch', ...what)] : []),
			...(waterL > 0 ? [{ row: 'watch', kind: 'change', what: litres } as const] : [])
		];
	}
	return [
		{ row: 'release', kind: 'release', what: '' },
		{ row: 'release', kind: 'clean', what: '' }
	];
}
