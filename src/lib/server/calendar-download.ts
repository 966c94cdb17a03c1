import { readChoices } from '../calendar/index.ts';
import { calendarFile } from './calendar-file.ts';
import { currentStore } from './current.ts';
import { download } from './download.ts';
import { noRun, refusal } from './request.ts';

/** Answers with a calendar file as its address asks for it; without `run` of every run. */
export async function calendarDownload(url: URL, run?: string): Promise<Response> {
	const choices = readChoices(url.searchParams);
	if (!choices.ok) {
		const { code, seen, expected } = choices.problem;
		return refusal(422, 'not-understood', `${code}: saw ${seen || 'nothing'}, expected ${expected}`);
	}
	const file = await calendarFile(currentStore(), { run, choices: choices.value, origin: url.origin });
	return file ? download(file.text, 'text/calendar', `${file.name}.ics`) : noRun(run ?? '');
}
