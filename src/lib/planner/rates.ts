import type { Run } from '../run/index.ts';
import type { Bottle } from './bottle.ts';
import { production, type Stock } from './stock.ts';
import { levelOf, type Forecast, type ForecastRates, type Side } from './tank-water.ts';

/** No tank is left to dry out between two services, whatever the file says. */
const MOST_EVAPORATED = 0.5;

/** The tank as rates see it. */
interface Running {
	run: Run;
	stock: readonly Stock[];
	bottles: readonly Bottle[];
	forecast: Forecast;
	filterRuns: boolean;
	/** carbon and resin in the tank */
	inPlace: ReadonlySet<string>;
}

/** What works on the water on a day, by published rates; production is nil without a volume, since no level could be told. */
export function ratesOf(tank: Running, day: number): ForecastRates {
	const { run, bottles, stock } = tank;
	const { netL, filterClearsLPerDay, evaporatesLPerDay } = run.tank;
	const volumeL = tank.forecast.central.volumeL;
	const known = netL !== null;
	const shared = {
		clearsLPerDay: known && tank.filterRuns && !filterStalled(tank) ? filterClearsLPerDay : 0,
		evaporatesLPerDay: known ? Math.min(evaporatesLPerDay, volumeL * MOST_EVAPORATED) : 0
	};
	const made = (side: Side) => (known ? production(stock, day, side) : 0);
	const loss = (which: 'central' | 'least' | 'greatest') =>
		bottles.map((bottle) => bottle.loss[which] + absorbed(tank, bottle) / volumeL);
	const high = { ...shared, tanMgPerDay: made('high'), lossPerDay: loss('least') };
	return {
		central: { ...shared, tanMgPerDay: made('central'), lossPerDay: loss('central') },
		low: { ...shared, tanMgPerDay: made('low'), lossPerDay: loss('greatest') },
		high,
		most: high
	};
}

/** Litres a day that carbon or resin strips of a medicine, where its row states a rate; no more is promised. */
function absorbed({ inPlace }: Running, { row }: Bottle): number {
	const works = [...inPlace].some((what) => row.removedBy.value.some((by) => by === what));
	return works ? (row.removalLPerDay?.value ?? 0) : 0;
}

/** A medicine that harms filter bacteria stalls the filter while it is in the water. */
const filterStalled = ({ bottles, forecast }: Running): boolean =>
	bottles.some((bottle) => bottle.row.harmsFilter.value && levelOf(forecast.central, bottle) > bottle.clear);
