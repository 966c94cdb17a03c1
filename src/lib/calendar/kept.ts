/**
 * The new value, with every part that reads as before being the very same object: what did not change is not drawn
 * again. For plain data as JSON knows it; lists are compared place by place.
 */
export function kept<T>(before: unknown, now: T): T {
	if (Object.is(before, now)) return now;
	if (Array.isArray(now)) return Array.isArray(before) ? (keptList(before, now) as T) : now;
	if (!isRecord(now) || !isRecord(before)) return now;
	const old = before as T & Record<string, unknown>;
	const keys = Object.keys(now);
	let same = keys.length === Object.keys(old).length;
	const merged: Record<string, unknown> = {};
	for (const key of keys) {
		merged[key] = kept(old[key], now[key]);
		same &&= Object.is(merged[key], old[key]) && key in old;
	}
	return same ? old : (merged as T);
}

function keptList(before: readonly unknown[], now: readonly unknown[]): readonly unknown[] {
	const merged = now.map((one, at) => kept(before[at], one));
	return merged.length === before.length && merged.every((one, at) => Object.is(one, before[at]))
		? before
		: merged;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);
