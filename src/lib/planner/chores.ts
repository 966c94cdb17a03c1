import type { Service } from './clock.ts';
import type { Job } from './job.ts';
import { dayOf, type Bench } from './phase-kind.ts';
import type { Active, Walk } from './walk.ts';
import { amountText, figure } from './words.ts';

/** Water lost to the air under this needs no topping off; a rounding remainder is no job. */
const LEAST_TOPOFF_L = 1e-9;

/** What the tank itself asks for in a service, whatever its phases do; the phase that began first gives the jobs their ids. */
export function chores(walk: Walk, bench: Bench, service: Service): Job[] {
	// the phase that began first, whatever the order of the rows: dragging a row renames no job
	const [owner] = [...walk.active].sort((a, b) => a.from - b.from || (a.phase.id < b.phase.id ? -1 : 1));
	if (!owner) return [];
	return [...topoff(walk, bench, service, owner), ...arrivals(walk, service, owner)];
}

/** What evaporated goes back as fresh water at the services of days when somebody is there. */
function topoff(walk: Walk, bench: Bench, service: Service, owner: Active): Job[] {
	const net = walk.netL;
	if (service.beside) return [];
	if (net === null || walk.run.tank.evaporatesLPerDay === 0 || bench.away(service.day)) return [];
	if (net - walk.forecast.central.volumeL <= LEAST_TOPOFF_L) return [];
	return [
		{
			phase: owner.phase.id,
			kind: 'topoff',
			n: dayOf(service, owner.from),
			act: ({ central }) => {
				const amount = { value: net - central.volumeL, unit: 'L' as const };
				return {
					effects: [{ does: 'topoff', litres: amount.value }],
					amount,
					scale: ({ value }) => [{ does: 'topoff', litres: value }],
					words: () => ({
						text: `Top off ${amountText(amount)} of fresh water`,
						because: `Evaporation left ${amountText({ value: central.volumeL, unit: 'L' })} of ${amountText({ value: net, unit: 'L' })}; salt and medicine stayed behind, so fresh water goes in, never salt water.`
					})
				};
			}
		}
	];
}

/** Fish that come today: into water of their bag's salinity, by a short move, never by a slow drip. */
function arrivals(walk: Walk, service: Service, owner: Active): Job[] {
	if (service.slot > 0) return [];
	const lots = walk.stock
		.filter(({ lot, arrives }) => arrives === service.day && lot.arrived !== null)
		.map(({ lot }) => lot);
	if (lots.length === 0) return [];
	const who = lots.map(({ what, count }) => `${figure(count, 0)} ${what || 'fish'}`).join(', ');
	return [
		{
			phase: owner.phase.id,
			kind: 'acclimate',
			n: dayOf(service, owner.from),
			act: () => ({
				effects: [],
				amount: null,
				words: () => ({
					text: `Take in ${who}`,
					because:
						'Bring the tank to the bag’s salinity and temperature, float the bag closed, open it and move the fish within 10 to 15 minutes: in an opened bag the pH climbs and its ammonia turns toxic. Bag water goes down the drain; then raise by 2 ppt a day at most. Dim light, no food for the first hours. Note count, mass, breaths a minute, signs and a photo.',
					cautions: [
						'Dry hands and plugs: a tank on the mains needs a residual-current device and a drip loop.'
					]
				})
			})
		}
	];
}
