import { taskKinds, type TaskKind } from '../planner/index.ts';
import { read, unreadable, type Read } from '../units/index.ts';
import type { EventOptions } from './events.ts';

/** What an export may be asked for, as forms, addresses and the command line write it. */
export type Choices = Pick<EventOptions, 'kinds' | 'alarms' | 'per' | 'allDay'>;

/** Each kind of task in the keeper's words, for lists to choose from. */
export const kindNames: Record<TaskKind, string> = {
	observe: 'Looking at the fish',
	test: 'Tests',
	change: 'Water changes',
	washout: 'Wash-out changes',
	dose: 'Doses',
	dip: 'Dips',
	transfer: 'Moves to another tank',
	salinity: 'Salinity steps',
	equipment: 'Equipment in and out',
	feed: 'Medicated food',
	supply: 'Things to get ready',
	acclimate: 'Arrival',
	release: 'Release',
	clean: 'Cleaning',
	topoff: 'Top-offs'
};

/** Chosen where nothing else is said: all but top-offs, which come nearly every day. */
export const usualKinds: TaskKind[] = taskKinds.filter((kind) => kind !== 'topoff');

/** The longest an alarm may ring ahead, minutes: a week. */
const longestAlarm = 10_080;

const isKind = (word: string): word is TaskKind => Object.hasOwn(kindNames, word);

/**
 * Reads choices from pairs as a form sends them: `kinds` (several, or one with commas), `per` (task, service),
 * `times` (timed, days), `alarm.KIND` (minutes before; empty: none). What is absent is every kind, per task, timed,
 * silent. Other keys are passed over. Trouble names the key in its code.
 */
export function readChoices(pairs: Iterable<readonly [string, string]>): Read<Choices> {
	const kinds = new Set<TaskKind>();
	const alarms: Partial<Record<TaskKind, number>> = {};
	const choices: Choices = {};
	for (const [key, text] of pairs) {
		if (key === 'kinds')
			for (const word of text.split(',').map((word) => word.trim())) {
				if (!isKind(word)) return unreadable(key, word, `kinds of task: ${taskKinds.join(', ')}`);
				kinds.add(word);
			}
		else if (key === 'per') {
			if (text !== 'task' && text !== 'service') return unreadable(key, text, 'task or service');
			choices.per = text;
		} else if (key === 'times') {
			if (text !== 'timed' && text !== 'days') return unreadable(key, text, 'timed or days');
			choices.allDay = text === 'days';
		} else if (key.startsWith('alarm.') && text.trim() !== '') {
			const kind = key.slice('alarm.'.length);
			const minutes = Number(text);
			if (!isKind(kind)) return unreadable('alarm', kind, `a kind of task: ${taskKinds.join(', ')}`);
			if (!Number.isInteger(minutes) || minutes < 0 || minutes > longestAlarm)
				return unreadable(key, text, 'whole minutes before, 0 to 10080 (a week)');
			alarms[kind] = minutes;
		}
	}
	if (kinds.size) choices.kinds = taskKinds.filter((kind) => kinds.has(kind));
	if (Object.keys(alarms).length) choices.alarms = alarms;
	return read(choices);
}
