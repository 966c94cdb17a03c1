/** Where a task is found in the app, reached at `origin`. */
export const taskAddress =
	(origin: string) =>
	(taskId: string, runId: string): string =>
		`${origin}/runs/${encodeURIComponent(runId)}?task=${encodeURIComponent(taskId)}`;
