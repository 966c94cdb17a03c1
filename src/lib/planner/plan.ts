import type { Band, CellProblem, Day, Edit } from '../run/index.ts';

/** UTC, `YYYY-MM-DDTHH:MM:SSZ`. */
export type Instant = string;

export type TaskKind =
	| 'observe'
	| 'topoff'
	| 'test'
	| 'equipment'
	| 'change'
	| 'washout'
	| 'salinity'
	| 'dose'
	| 'dip'
	| 'transfer'
	| 'supply'
	| 'release'
	| 'acclimate'
	| 'feed'
	| 'clean';

export interface Amount {
	value: number;
	unit: 'L' | 'mL' | 'mg' | 'g';
}

export type TaskState = 'planned' | 'open' | 'done' | 'late' | 'partly' | 'missed';

export interface Task {
	/** `phase/kind/n`, stable under replanning */
	id: string;
	phase: string;
	kind: TaskKind;
	date: Day;
	time: string;
	at: Instant;
	text: string;
	/** what the keeper measures out; null where a number is missing or none belongs */
	amount: Amount | null;
	/** of the volume before, for change and washout; equals amount/volume */
	fraction?: number;
	/** medicine id, for dose, washout and dip */
	medicine?: string;
	/** what is measured, for test */
	what?: string[];
	raises?: { from: number; to: number; unit: 'mg/L' | 'uL/L' | 'ppt' };
	/** equipment that is put in or taken out */
	equipment?: { what: string; on: boolean };
	/** an emergency asks for it: it has no day of its own in the plan */
	urgent?: true;
	/** timed bath */
	minutes?: number;
	state: TaskState;
	/** one sentence with the numbers */
	because: string;
	/** hazards that stand on the task itself */
	cautions: string[];
}

export interface Sample {
	at: Instant;
	/** the keeper's own day */
	date: Day;
	/** before and after a service's jobs (same `at`); between: for drawing, and where the log moved water */
	when: 'before' | 'after' | 'between';
	volumeL: number;
	salinityPpt: number | null;
	temperatureC: number | null;
	tanMgNPerL: number;
	nh3MgNPerL: number | null;
	nitrateMgPerL: number;
	medicinesMgPerL: Record<string, number>;
	/** honest spread of the forecast; absent where it is nil */
	band?: { tanMgNPerL?: Band; nh3MgNPerL?: Band; medicinesMgPerL?: Record<string, Band> };
}

export interface PhaseSpan {
	id: string;
	from: Day | null;
	to: Day | null;
	/** for phases that count credit */
	creditedDays?: number;
	/** of these, what is earned by now */
	creditedSoFar?: number;
	/** a level that is read as low from now on only pauses the course if it is back inside by then */
	pausesUntil?: Instant;
	/** tasks of this phase */
	tasks: number;
}

export type Severity = 'stop' | 'caution' | 'note';

export interface Finding {
	rule: string;
	severity: Severity;
	/** null: the whole run */
	date: Day | null;
	phase: string | null;
	/** place in the plan file, e.g. `phases.copper.level` */
	cell?: string;
	task?: string;
	message: string;
	because: string;
	source: string;
	repairs: Repair[];
}

export interface Repair {
	/** imperative, one line */
	title: string;
	/** what it costs, e.g. `release +1 day, 34 L more water` */
	cost: string;
	/** edits of the plan document, tried before they are offered */
	edits: Edit[];
}

export interface Supplies {
	waterL: number;
	medicines: { id: string; value: number; unit: Amount['unit'] }[];
}

/** What the run's own readings taught about a rate, and how wrong the forecast was without it. */
export interface Learned {
	/** `production` of the fish, `filter`, or a medicine's id */
	of: string;
	unit: 'mg N/d' | 'L/d' | '%/d';
	/** as published or stated; low to high is its band */
	before: Band & { value: number };
	/** low to high holds nine tenths */
	after: Band & { value: number };
	/** readings that taught */
	readings: number;
	/** readings against the forecast each of them met; bias is above zero where the forecast was too low */
	error: { meanAbsolute: number; bias: number; unit: 'mg/L' | 'uL/L' };
	/** one sentence with the numbers and what was assumed */
	because: string;
}

/** `lazaret-result/1`, what the command line prints and every view reads. */
export interface Plan {
	format: 'lazaret-result/1';
	begins: Day | null;
	release: Day | null;
	phases: PhaseSpan[];
	tasks: Task[];
	levels: Sample[];
	findings: Finding[];
	supplies: Supplies;
	/** absent where no reading taught anything */
	learned?: Learned[];
	problems: CellProblem[];
}
