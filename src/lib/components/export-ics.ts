import { planToIcs } from '$lib/calendar';

export { planToIcs };
