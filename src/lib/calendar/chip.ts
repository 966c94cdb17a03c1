import type { Task, TaskState } from '../planner/index.ts';
import type { UnitSystem } from '../units/index.ts';
import type { Hue } from './hue.ts';
import { amountIn } from './telling.ts';

/** The shape that carries the kind; colour only repeats it. */
export type Glyph =
	| 'eye'
	| 'tube'
	| 'wave'
	| 'wave-out'
	| 'drop'
	| 'salt'
	| 'bath'
	| 'move'
	| 'plug'
	| 'fresh'
	| 'crate'
	| 'food'
	| 'brush'
	| 'arrow';

/** One line of a day: a glyph, then an amount. Tests of one service share a line. */
export interface Chip {
	glyph: Glyph;
	text: string;
	hue: Hue;
	tasks: Task[];
	state: TaskState;
	time: string;
}

const glyphs: Record<Task['kind'], { glyph: Glyph; hue: Hue }> = {
	observe: { glyph: 'eye', hue: 'watch' },
	topoff: { glyph: 'fresh', hue: 'slate' },
	test: { glyph: 'tube', hue: 'ink' },
	equipment: { glyph: 'plug', hue: 'ink' },
	change: { glyph: 'wave', hue: 'wash' },
	washout: { glyph: 'wave-out', hue: 'wash' },
	salinity: { glyph: 'salt', hue: 'slate' },
	dose: { glyph: 'drop', hue: 'ink' },
	dip: { glyph: 'bath', hue: 'ink' },
	transfer: { glyph: 'move', hue: 'ink' },
	supply: { glyph: 'crate', hue: 'ink' },
	release: { glyph: 'arrow', hue: 'watch' },
	acclimate: { glyph: 'move', hue: 'watch' },
	feed: { glyph: 'food', hue: 'ink' },
	clean: { glyph: 'brush', hue: 'ink' }
};

export const glyphOf = (kind: Task['kind']): Glyph => glyphs[kind].glyph;

/** How each medicine is written and coloured on a chip, by id. */
export type ShelfMarks = Record<string, { short: string; name: string; hue: Hue }>;

const formulas: Record<string, string> = {
	NH3: 'NH₃',
	NO2: 'NO₂',
	NO3: 'NO₃',
	O2: 'O₂',
	S: 'Salinity',
	T: 'Temp.'
};

const measured = (what: string, marks: ShelfMarks) => formulas[what] ?? marks[what]?.short ?? what;

function wording(task: Task, marks: ShelfMarks, system: UnitSystem): string {
	const amount = task.amount ? amountIn(system, task.amount) : null;
	const short = task.medicine === undefined ? '' : (marks[task.medicine]?.short ?? task.medicine);
	switch (task.kind) {
		case 'test':
			return (task.what ?? []).map((what) => measured(what, marks)).join(' · ') || 'Test';
		case 'dose':
		case 'feed':
			return `${short} ${amount ?? '?'}`.trim();
		case 'dip':
			return (
				`${short} ${amount ?? ''}${task.minutes === undefined ? '' : ` ${task.minutes} min`}`.trim() || 'Dip'
			);
		case 'change':
		case 'washout':
		case 'topoff':
			return amount ?? (system === 'us' ? '? gal' : '? L');
		case 'equipment':
			return `${task.equipment?.what ?? ''} ${task.equipment?.on ? 'in' : 'out'}`.trim();
		case 'release':
			return 'Release';
		case 'observe':
			return 'Look';
		default:
			return amount ?? task.text;
	}
}

const rank: readonly TaskState[] = ['open', 'missed', 'partly', 'late', 'planned', 'done'];

/** The lines of one day in working order; tests of the same hour fold into one. */
export function chipsOf(tasks: readonly Task[], marks: ShelfMarks, system: UnitSystem = 'metric'): Chip[] {
	const chips: Chip[] = [];
	for (const task of tasks) {
		const { glyph, hue } = glyphs[task.kind];
		const text = wording(task, marks, system);
		const same = chips.find((chip) => chip.glyph === 'tube' && glyph === 'tube' && chip.time === task.time);
		if (same) {
			same.tasks.push(task);
			same.text = [...new Set([...same.text.split(' · '), ...text.split(' · ')])].join(' · ');
			if (rank.indexOf(task.state) < rank.indexOf(same.state)) same.state = task.state;
			continue;
		}
		const own =
			task.medicine === undefined || task.kind === 'washout' ? undefined : marks[task.medicine]?.hue;
		chips.push({ glyph, text, hue: own ?? hue, tasks: [task], state: task.state, time: task.time });
	}
	return chips;
}
