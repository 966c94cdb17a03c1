import { OVERRIDE_MG_N_PER_L } from '../change-limits.ts';
import { litresAway, shareAway } from '../ammonia-away.ts';
import { EMERGENCY_MG_N_PER_L, MOST_AT_ONCE } from '../emergency-change.ts';
import type { Run } from '../../run/index.ts';
import type { Plan, Sample } from '../plan.ts';
import { figure } from '../words.ts';
import { NEAR, sampleNow, type Check } from './check.ts';

/** Ammonia as it stands: what was read today cannot wait for the next service. */
export const ammoniaNow: Check = {
	rule: 'ammonia-now',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'NH3-N at or over the level that overrides everything, now',
	source: 'override at 0.05 mg/L NH3-N, emergency at 0.1: judgment, no source',
	find({ run, plan, nowMs }) {
		const last = sampleNow({ plan, nowMs });
		const level = last?.nh3MgNPerL ?? 0;
		const read = run.log.some(
			(entry) => entry.kind === 'reading' && entry.what === 'NH3' && entry.atMs <= nowMs
		);
		if (!last || !read || level < OVERRIDE_MG_N_PER_L - NEAR) return [];
		const phase = plan.phases.find(
			({ from, to }) => from !== null && from <= last.date && (to === null || to >= last.date)
		);
		return [
			{
				severity: level >= EMERGENCY_MG_N_PER_L - NEAR ? 'stop' : 'caution',
				date: last.date,
				phase: phase?.id ?? null,
				message: `Toxic ammonia stands at ${figure(level, 3)} mg/L NH3-N now.`,
				because: `${changeNow(run, plan, last, level)}, matched in temperature, salinity and pH, even while a dose acts, and give back only what the change took; no food, strong air, read again within hours. At 0.1 call it an emergency.`
			}
		];
	}
};

/** The water that brings it back under the limit: as the plan asks for it, as long as that waits. */
function changeNow(run: Run, { tasks }: Plan, { tanMgNPerL, volumeL }: Sample, nh3: number): string {
	const asked = tasks.findLast(({ urgent, state, fraction }) => urgent && fraction && state === 'open');
	const fouled = {
		tanMgNPerL,
		allowedMgNPerL: (tanMgNPerL * run.limits.nh3MgNPerL) / nh3,
		sourceMgNPerL: run.source.ammoniaMgNPerL
	};
	const known = run.tank.netL !== null;
	const litres = asked?.amount?.value ?? litresAway(volumeL, fouled);
	const fraction = asked?.fraction ?? (known ? litres / volumeL : shareAway(fouled));
	const share = `${figure(fraction * 100, 0)} %`;
	return `Air first, then change ${known ? `${figure(litres, 0)} L, ` : ''}${share} of the water, at once${fraction > MOST_AT_ONCE ? ' and in one go' : ''}`;
}
