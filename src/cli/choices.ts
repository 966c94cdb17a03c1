import { readChoices, type Choices } from '../lib/calendar/index.ts';
import { refuse } from './answer.ts';

/** What a calendar file may be asked for, beside its form. */
export const choiceOptions = {
	kinds: 'text',
	alarms: 'text',
	per: ['task', 'service'],
	times: ['timed', 'days']
} as const;

/** The choices of a calendar file; alarms are written `dose=30,test=0`. Refuses what cannot be read. */
export function choicesOf({ kinds, alarms, per, times }: Record<string, string | undefined>): Choices {
	const pairs: [string, string][] = [];
	for (const [key, text] of Object.entries({ kinds, per, times }))
		if (text !== undefined) pairs.push([key, text]);
	for (const one of alarms?.split(',') ?? []) {
		const [kind = '', minutes = ''] = one.split('=');
		if (minutes.trim() === '')
			refuse({ place: '--alarms', saw: one || 'nothing', expected: 'KIND=MINUTES, such as dose=30,test=0' });
		pairs.push([`alarm.${kind.trim()}`, minutes]);
	}
	const read = readChoices(pairs);
	if (read.ok) return read.value;
	const { code, seen, expected } = read.problem;
	return refuse({
		place: code.startsWith('alarm') ? '--alarms' : `--${code}`,
		saw: seen || 'nothing',
		expected
	});
}
