import { OVERRIDE_MG_N_PER_L } from '../change-limits.ts';
import { figure } from '../words.ts';
import { NEAR, type Check } from './check.ts';

/** NH3-N that is an emergency (judgment, no source). */
const EMERGENCY_MG_N_PER_L = 0.1;
/** A level older than this says nothing about now. */
const FRESH_MS = 24 * 3_600_000;

/** Ammonia as it stands: what was read today cannot wait for the next service. */
export const ammoniaNow: Check = {
	rule: 'ammonia-now',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'NH3-N at or over the level that overrides everything, now',
	source: 'override at 0.05 mg/L NH3-N, emergency at 0.1: judgment, no source',
	find({ run, plan, nowMs }) {
		const last = plan.levels.findLast(({ at }) => Date.parse(at) <= nowMs);
		const level = last?.nh3MgNPerL ?? 0;
		const read = run.log.some(
			(entry) => entry.kind === 'reading' && entry.what === 'NH3' && entry.atMs <= nowMs
		);
		if (!last || !read || nowMs - Date.parse(last.at) > FRESH_MS || level < OVERRIDE_MG_N_PER_L - NEAR)
			return [];
		const phase = plan.phases.find(
			({ from, to }) => from !== null && from <= last.date && (to === null || to >= last.date)
		);
		return [
			{
				severity: level >= EMERGENCY_MG_N_PER_L - NEAR ? 'stop' : 'caution',
				date: last.date,
				phase: phase?.id ?? null,
				message: `Toxic ammonia stands at ${figure(level, 3)} mg/L NH3-N now.`,
				because:
					'Change half the water at once, matched in temperature, salinity and pH, even while a dose acts, and give the lost share again; no food, strong air, test again within hours. At 0.1 call it an emergency.'
			}
		];
	}
};
