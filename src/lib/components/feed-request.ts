/** Asks the feed endpoints; answers with what came back, or with the sentence that says why not. */
export async function askFeeds<T>(
	path: string,
	method: 'POST' | 'DELETE',
	body?: unknown
): Promise<T | string> {
	try {
		const response = await fetch(`/api/feeds${path}`, {
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
