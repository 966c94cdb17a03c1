import type { Plan, Sample, Task } from '../planner/index.ts';

/** The water a reading taken now would find: what the log left, or what the service of the task will meet. */
export function waterFor({ plan, nowMs }: { plan: Plan; nowMs: number }, task: Task): Sample | null {
	const { levels } = plan;
	if (Date.parse(task.at) > nowMs)
		return levels.find(({ at, when }) => when === 'before' && at === task.at) ?? null;
	const passed = levels.findLastIndex(({ at }) => Date.parse(at) <= nowMs);
	const found = levels.slice(0, passed + 1).findLast(({ when }) => when !== 'after');
	const from = levels[passed];
	const to = levels[passed + 1];
	return found && from && to ? aged(found, { from, to, nowMs }) : (found ?? null);
}

/** What the hours since the sample took: water goes evenly, a medicine by its share, as between the samples around now. */
function aged(found: Sample, { from, to, nowMs }: { from: Sample; to: Sample; nowMs: number }): Sample {
	const start = Date.parse(from.at);
	const gone = (nowMs - start) / (Date.parse(to.at) - start);
	if (!(gone > 0 && gone < 1)) return found;
	const volumeL = found.volumeL * (1 + (to.volumeL / from.volumeL - 1) * gone);
	const medicinesMgPerL = Object.fromEntries(
		Object.entries(found.medicinesMgPerL).map(([id, level]) => {
			const [was, is] = [from, to].map((one) => (one.medicinesMgPerL[id] ?? 0) * one.volumeL);
			if (!was || is === undefined) return [id, level];
			return [id, (level * found.volumeL * (is / was) ** gone) / volumeL];
		})
	);
	return { ...found, volumeL, medicinesMgPerL };
}
