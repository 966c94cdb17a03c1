import type { Phase } from '../../run/index.ts';
import { dutiesOf } from '../duties.ts';
import type { Job } from '../job.ts';
import { dayOf, type PhaseKindRow } from '../phase-kind.ts';
import { lastDay } from './span.ts';

/** Watch the fish in the water they are in; tests and changes as the row says, a full look on the last day. */
export const observe: PhaseKindRow = { kind: 'observe', begin: watching };

/** The first days in the tank: the same work under the name keepers give it. */
export const settle: PhaseKindRow = { kind: 'settle', begin: watching };

function watching(phase: Phase, _bottle: unknown, from: number, bench: Parameters<PhaseKindRow['begin']>[3]) {
	const duties = dutiesOf(phase, from, bench.run);
	const to = lastDay(phase, from);
	return {
		due: (service: Parameters<typeof duties>[0]): Job[] => [
			...(service.day === to && service.slot === 0 ? [lookJob(phase, dayOf(service, from))] : []),
			...duties(service, bench)
		],
		endsWith: (service: { day: number }) => service.day >= to
	};
}

function lookJob(phase: Phase, n: string): Job {
	return {
		phase: phase.id,
		kind: 'observe',
		n,
		act: () => ({
			effects: [],
			amount: null,
			words: () => ({
				text: 'Look at every fish and log the signs',
				because:
					'Last day of its row: what comes next asks for a clean look, breathing, skin, eyes, fins, faeces and appetite.'
			})
		})
	};
}
