import { age, type WaterState } from '../water/index.ts';
import { momentKey, type Service } from './clock.ts';
import { isPut } from './put.ts';
import type { Outlook } from './serve.ts';
import { after, toxicShare } from './tank-water.ts';
import type { Walk } from './walk.ts';

const MS_PER_DAY = 86_400_000;

/**
 * One service as the search for changes sees it. Ammonia and nitrate move linearly, so a service is a few numbers:
 * mass before = alpha x mass after the service before + betaMg; the fixed jobs then keep a share and add a mass.
 */
export interface Chance {
	/** names the service in a schedule, see {@link momentKey} */
	key: number;
	day: number;
	wall: number;
	alpha: number;
	betaMg: number;
	/** mg N the fish made since the service before: what is not ammonia now has become nitrate */
	producedMg: number;
	beforeL: number;
	/** when water was last changed before this service, wall-clock days */
	changedWall: number | null;
	/** masses as the walk found them: the start of a search */
	tanMg: number;
	nitrateMg: number;
	/** NH3-N per TAN before the service; null when unknown */
	toxicShare: number | null;
	keepTan: number;
	addTanMg: number;
	keepNitrate: number;
	addNitrateMg: number;
	/** an automatic row is active */
	auto: boolean;
	/** somebody is there and nothing else changes water */
	open: boolean;
	/** a dose still acts that a change would thin */
	acting: boolean;
	/** share that fixed jobs exchange */
	fixed: number;
	/** the day whose id a moved change keeps: it must be made here */
	pinned: number | null;
	/** the change of this day was moved away */
	barred: boolean;
	volumeL: number;
	/** what a litre of new water brings */
	source: { tanMg: number; nitrateMg: number };
	future: boolean;
}

type Carry = Pick<Chance, 'alpha' | 'betaMg' | 'producedMg'>;
type Found = Pick<
	Chance,
	'changedWall' | 'beforeL' | 'tanMg' | 'nitrateMg' | 'toxicShare' | 'acting' | 'auto' | 'pinned' | 'barred'
>;

/** What the water between two services does to ammonia, asked of the closed form with nothing and with one mg in it. */
export function carryOver(walk: Walk, before: Service | null, service: Service): Carry {
	if (!before) return { alpha: 1, betaMg: 0, producedMg: 0 };
	const days = (service.atMs - walk.atMs) / MS_PER_DAY;
	const rates = walk.rates(before.day).central;
	const probe = (tanMg: number): WaterState => ({ ...walk.forecast.central, tanMg, medicinesMg: [] });
	const betaMg = age(probe(0), rates, days).tanMg;
	return { alpha: age(probe(1), rates, days).tanMg - betaMg, betaMg, producedMg: rates.tanMgPerDay * days };
}

/** The water as the service finds it. */
export function find(walk: Walk, service: Service): Found {
	const { central } = walk.forecast;
	const automatic = walk.active.filter(({ phase }) => phase.change && 'auto' in phase.change);
	const moves = automatic.flatMap(({ phase, from }) =>
		Object.entries(walk.run.moves)
			.filter(([id]) => id.startsWith(`${phase.id}/change/`))
			.map(([id, to]) => ({
				natural: from + Number(id.slice(`${phase.id}/change/`.length)) - 1,
				here: isPut(to, service)
			}))
	);
	return {
		changedWall: walk.changedWall,
		beforeL: central.volumeL,
		tanMg: central.tanMg,
		nitrateMg: central.nitrateMg,
		toxicShare: toxicShare(central, walk.around),
		acting: [...walk.active, ...walk.lingering].some(({ machine }) => machine.acting?.(service)),
		auto: automatic.length > 0,
		pinned: moves.find(({ here }) => here)?.natural ?? null,
		barred: moves.some(({ natural, here }) => natural === service.day && !here)
	};
}

/** The whole chance, once the service is done. */
export function closeChance(
	walk: Walk,
	service: Service,
	parts: { carry: Carry; found: Found; outlook: Outlook; away: boolean; future: boolean }
): Chance {
	const { carry, found, outlook, away, future } = parts;
	const volumeL = walk.forecast.central.volumeL;
	const through = (tanMg: number, nitrateMg: number) =>
		outlook.effects.reduce(after, { ...walk.forecast.central, tanMg, nitrateMg, volumeL, medicinesMg: [] });
	const none = through(0, 0);
	const one = through(1, 1);
	const water = walk.newWater();
	return {
		...carry,
		...found,
		key: momentKey(service),
		day: service.day,
		wall: service.wall,
		keepTan: one.tanMg - none.tanMg,
		addTanMg: none.tanMg,
		keepNitrate: one.nitrateMg - none.nitrateMg,
		addNitrateMg: none.nitrateMg,
		open: (service.slot === 0 || found.pinned !== null) && !away && outlook.fixed === 0,
		fixed: outlook.fixed,
		volumeL,
		source: { tanMg: water.tanMgNPerL, nitrateMg: water.nitrateMgPerL },
		future
	};
}
