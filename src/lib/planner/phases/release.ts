import type { Phase } from '../../run/index.ts';
import type { Job } from '../job.ts';
import type { PhaseKindRow } from '../phase-kind.ts';

/** The fish go on to where they will live; the tank is stripped, disinfected and dried before the next. */
export const release: PhaseKindRow = {
	kind: 'release',
	begin: (phase, _bottle, from) => ({
		due: (service) =>
			service.day === from && service.slot === 0 ? [releaseJob(phase), cleanJob(phase)] : [],
		endsWith: (service) => service.day >= from
	})
};

const releaseJob = (phase: Phase): Job => ({
	phase: phase.id,
	kind: 'release',
	n: '1',
	act: () => ({
		effects: [],
		amount: null,
		words: () => ({
			text: 'Release the fish',
			because:
				'Every phase before it is full: look once more, match temperature and salinity, and hand over the record.'
		})
	})
});

const cleanJob = (phase: Phase): Job => ({
	phase: phase.id,
	kind: 'clean',
	n: '1',
	act: () => ({
		effects: [],
		amount: null,
		words: () => ({
			text: 'Strip, disinfect and dry the tank and its tools',
			because:
				'Chlorine 200 mg/L for 10 minutes, rinse, dry 24 hours: the tank is free again the day after (common practice, no source). No dechlorinator may be left for the next copper.',
			cautions: [
				'Chlorine burns eyes and skin and must never meet acid or ammonia cleaners: gloves, open window.'
			]
		})
	})
});
