import { methods, unsourced } from '../../formulary/index.ts';
import type { Taken } from '../../run/index.ts';
import type { Use, Withheld } from './slip.ts';

interface Says {
	title: string;
	because: string;
	source: string;
}

/** What the trade knows about a missed job of one use. */
export interface SlipRule {
	use: Use;
	/** the ways there are; what is not named makes no difference or no sense here */
	ways: Partial<Record<Taken, Says>>;
	/** the first of these that is safe is proposed */
	prefers: readonly Taken[];
	/** a later job of the kind has been done since: only to be left behind */
	covered: string;
	/** what keepers ask for and is not offered here, with the reason */
	withheld?: readonly Withheld[];
}

const { hoursApart, graceHours } = methods.transfer;
const moveHours = `${hoursApart?.value ?? 72} h apart, ${graceHours?.value ?? 6} h of grace`;
const moveSource = `${hoursApart?.source ?? unsourced.M}; grace: ${graceHours?.source ?? unsourced.J}`;

/** One row for each way of using a medicine, a method or a day; every sentence with its source or mark. */
export const slipRules: Readonly<Record<Use, SlipRule>> = {
	hold: {
		use: 'hold',
		ways: {
			now: {
				title: 'Give it now',
				because:
					'A hold loses only the hours it was under its floor. What is given leads from the level now to the aim and never past the ceiling; who is not sure that it was missed reads the level first.',
				source: unsourced.J
			},
			skip: {
				title: 'Leave it to the next make-up',
				because: 'The next service makes up what is missing; until then nothing is earned below the floor.',
				source: unsourced.CP
			},
			restart: {
				title: 'Count the whole course again',
				because:
					'Everything earned is given up and counted from the next service: for a break long enough that parasites left the fish and came back (they stay on it up to 7 days).',
				source: `${unsourced.J}, after the stages of the shelf`
			}
		},
		prefers: ['now', 'skip', 'restart'],
		covered:
			'A later dose was figured on the level as it was then, so this one is in it; what is still missing the next make-up brings.',
		withheld: [
			{
				title: 'Give it now, the rest as much later',
				because:
					'A hold has no rest to shift: it loses only the time its level was outside the window, and lasts until its days are earned in full, so its end, and all behind it, moves by itself. Doses to come answer what is read, not the one before.',
				source: unsourced.J
			}
		]
	},
	pulse: {
		use: 'pulse',
		ways: {
			now: {
				title: 'Give it now, the rest on its days',
				because: 'A second dose works between the last hatch and the first eggs of the next worms.',
				source: 'the life cycles of the shelf'
			},
			'now-shift': {
				title: 'Give it now, the rest as much later',
				because: 'The gap between the doses stays what the life cycle asks.',
				source: 'the life cycles of the shelf'
			},
			skip: {
				title: 'Skip it and go on',
				because: 'What hatched since the dose before stays untreated; the fish are watched for it.',
				source: unsourced.J
			},
			restart: {
				title: 'Begin the doses again',
				because:
					'Once new worms may have laid, a late dose closes nothing: a first dose again, and the others after it.',
				source: 'the life cycles of the shelf'
			}
		},
		prefers: ['now-shift', 'now', 'restart', 'skip'],
		covered: 'A later dose of the series was given: two of them do not make up for one.'
	},
	daily: {
		use: 'daily',
		ways: {
			now: {
				title: 'Give it now, the rest on its days',
				because: 'The course keeps its days; two doses must never act on top of each other.',
				source: 'a bath dose is never doubled: from memory'
			},
			'now-shift': {
				title: 'Give it now, the rest later',
				because: 'A daily course goes on and ends as many days later as it lost.',
				source: unsourced.CP
			},
			skip: {
				title: 'Skip it, one dose more at the end',
				because: 'The course goes on with its next dose and ends a day later; nothing is doubled.',
				source: unsourced.CP
			},
			restart: {
				title: 'Begin the course again',
				because: 'Germs that outlived half a course have had days without it.',
				source: unsourced.J
			}
		},
		prefers: ['now-shift', 'skip', 'now', 'restart'],
		covered: 'The course has gone on since: this dose is made good at its end, never on top of another.'
	},
	dip: {
		use: 'dip',
		ways: {
			now: {
				title: 'Dip now, the rest on their days',
				because: 'The next dip keeps its day, so there is less rest before it.',
				source: unsourced.J
			},
			'now-shift': {
				title: 'Dip now, the rest as much later',
				because: 'The rest between two dips stays as the row says.',
				source: unsourced.CP
			},
			skip: {
				title: 'Skip it and go on',
				because: 'One dip fewer; what it would have loosened stays on the fish until the next.',
				source: unsourced.J
			},
			restart: {
				title: 'Begin the dips again',
				because: 'The whole series once more from the next service.',
				source: unsourced.J
			}
		},
		prefers: ['now-shift', 'now', 'skip', 'restart'],
		covered: 'A later dip was made: two do not make up for one.'
	},
	transfer: {
		use: 'transfer',
		ways: {
			now: {
				title: 'Move them now, the rest on their days',
				because: `Moves count hours: ${moveHours}.`,
				source: moveSource
			},
			'now-shift': {
				title: 'Move them now, the rest as much later',
				because: `Moves count hours: ${moveHours}; the next ones count from this one.`,
				source: moveSource
			},
			skip: {
				title: 'Skip it and go on',
				because: 'Without this move the fish stay with cysts that open from day 3 on.',
				source: moveSource
			},
			restart: {
				title: 'Begin the moves again',
				because:
					'Past the third day what hatched has found the fish again: the first move once more, and the others after it.',
				source: moveSource
			}
		},
		prefers: ['now-shift', 'now', 'restart', 'skip'],
		covered: 'A later move was made.'
	},
	test: {
		use: 'test',
		ways: {
			now: {
				title: 'Test now',
				because:
					'A level counts while a test vouches for it, two days at most: days past those two count only from the next test on.',
				source: unsourced.CP
			},
			skip: {
				title: 'Leave it out',
				because: 'The next test of the row vouches for what comes after it.',
				source: unsourced.CP
			}
		},
		prefers: ['now', 'skip'],
		covered: 'It was tested since: nobody can read yesterday’s water today.'
	},
	change: {
		use: 'change',
		ways: {
			now: {
				title: 'Change water now',
				because: 'What the change would have taken out is still there, and what has come since.',
				source: unsourced.CP
			},
			skip: {
				title: 'Leave it out',
				because: 'The next change has more to take out; the forecast says whether a limit is passed before.',
				source: unsourced.CP
			}
		},
		prefers: ['now', 'skip'],
		covered: 'Water was changed since.'
	}
};
