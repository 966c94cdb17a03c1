/** Asks an endpoint of the app; answers with what came back, or with the sentence that says why not. */
export async function askApp<T>(
	path: string,
	method: 'POST' | 'DELETE',
	body?: unknown
): Promise<T | string> {
	try {
		const response = await fetch(`/api${path}`, {
			method,
			...(body === undefined
				? {}
				: { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } })
		});
		const answer = (await response.json()) as T & { error?: { message: string } };
		return answer.error ? answer.error.message : answer;
	} catch {
		return 'The app cannot be reached.';
	}
}

/** What a form with the fields of an export asks for, as the endpoints take it. */
export interface Wish {
	run?: string;
	tank?: string;
	kinds?: string[];
	per?: string;
	allDay?: boolean;
	alarms?: Record<string, number>;
}

export function wishOf(form: FormData): Wish {
	const said = (name: string) => String(form.get(name) ?? '');
	const alarms: Record<string, number> = {};
	for (const [name, value] of form)
		if (name.startsWith('alarm.') && value !== '') alarms[name.slice('alarm.'.length)] = Number(value);
	return {
		...(said('run') ? { run: said('run') } : {}),
		...(said('tank') ? { tank: said('tank') } : {}),
		kinds: form.getAll('kinds').map(String),
		...(said('per') === 'service' ? { per: 'service' } : {}),
		...(said('times') === 'days' ? { allDay: true } : {}),
		...(Object.keys(alarms).length ? { alarms } : {})
	};
}
