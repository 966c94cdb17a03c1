export { checks } from './checks/index.ts';
export { plan } from './planning.ts';
export { offerRepairs } from './repair/offer.ts';
export type {
	Amount,
	Finding,
	Instant,
	PhaseSpan,
	Plan,
	Repair,
	Sample,
	Severity,
	Supplies,
	Task,
	TaskKind,
	TaskState
} from './plan.ts';
export { dayOfInstant, servicesOf } from './clock.ts';
