import { courses } from '$lib/formulary';
import { plan } from '$lib/planner';
import { courseHints } from './course-hints';

/**
 * What a run's page needs only once the keeper changes something: the planner and the shelf behind it. It is fetched
 * when somebody goes to write; until then the page shows the plan it came with.
 */
export const engine = { plan, courseHints, courses };

export type Engine = typeof engine;
