/** Something that happened to the copper: a reading in mg/L, mg given, or the share of the water that was changed. */
interface Event {
	/** days and parts of days */
	at: number;
	is: 'read' | 'given' | 'changed';
	value: number;
}

/** What one loss would make of all that happened. */
interface Guess {
	/** per day, first order */
	loss: number;
	/** how badly it fits: squares of how many standard deviations it is off */
	misfit: number;
	mg: number;
	/** mg squared */
	variance: number;
}

/** At most a tenth a day is lost; nine tenths of what one expects of it before reading lie inside (judgment, no source). */
const mostLoss = -Math.log(0.9);
const nineTenths = 1.645;
/** A kit is right within a tenth, a dose within 3 %, a day within 1 % (judgment, no source). */
const [kitShare, doseShare, dayShare] = [0.1, 0.03, 0.01];
/** So many standard deviations up or down nothing explains a reading (judgment, no source). */
const [farAbove, farBelow] = [2.5, 3];
const guesses = 400;
/** A reading of this many hours ago stands for itself (judgment, no source), and the floor of copper, mg/L. */
const [ownHours, holdFloor] = [18, 0.15];

/** Days and parts of days. */
const moment = (day: number, time: string): number => {
	const [hours = 0, minutes = 0] = time.split(':').map(Number);
	return day + (hours * 60 + minutes) / 1440;
};

/** The coarsest scale, mg/L, that has all readings on it: a step of one, two or five. */
export function stepOf(levels: readonly number[]): number {
	const steps = [500, 200, 100, 50, 20, 10, 5, 2, 1];
	const thousandths = levels.map((level) => Math.round(level * 1000));
	return (steps.find((step) => thousandths.every((value) => value % step === 0)) ?? 1) / 1000;
}

/** The loss under which a share of all that could be lies. */
function below(all: readonly Guess[], share: number): number {
	const least = Math.min(...all.map(({ misfit }) => misfit));
	const weights = all.map(({ misfit }) => Math.exp((least - misfit) / 2));
	const sum = weights.reduce((total, one) => total + one, 0);
	let reached = 0;
	const n = weights.findIndex((one) => (reached += one / sum) >= share);
	return all[n]?.loss ?? mostLoss;
}

export interface Lost {
	loss: number;
	least: number;
	most: number;
	levelAt: (at: number) => number;
}

/**
 * How fast copper is lost, weighed from everything that was read, given and changed: for each loss that could be, the
 * readings are averaged with what it would have left, each by the inverse of its variance, and the loss with the least
 * squares is taken (least squares with a prior, as books on statistics have it: from memory).
 */
export class PaperLoss {
	readonly #litres: number;
	readonly #events: Event[] = [];

	constructor(litres: number) {
		this.#litres = litres;
	}

	note(day: number, time: string, is: Event['is'], value: number): void {
		this.#events.push({ at: moment(day, time), is, value });
	}

	/** Loss per day and its middle nine tenths, and mg/L left at a moment if it goes on so. */
	estimate(): Lost {
		let all = Array.from({ length: guesses + 1 }, (_, n): Guess => {
			const share = n / guesses;
			return { loss: share * mostLoss, misfit: (share * nineTenths) ** 2, mg: 0, variance: 0 };
		});
		const step = stepOf(this.#events.filter(({ is }) => is === 'read').map(({ value }) => value));
		let then = this.#events[0]?.at ?? 0;
		for (const event of this.#events) {
			const days = event.at - then;
			all = all.map((guess) => happened(aged(guess, days), event));
			if (event.is === 'read') all = this.#weighed(all, event.value, step);
			then = event.at;
		}
		const best = all.reduce((one, other) => (other.misfit < one.misfit ? other : one));
		return {
			loss: best.loss,
			least: Math.min(best.loss, below(all, 0.05)),
			most: below(all, 0.95),
			levelAt: (at) => (best.mg * Math.exp(-best.loss * (at - then))) / this.#litres
		};
	}

	/**
	 * What is forecast for a service, mg/L: for 18 hours the last reading itself stands (judgment, no source), and after
	 * that what all readings together say, but for the floor of a hold that the last one kept.
	 */
	forecastAt(day: number, time = '08:00', floor = holdFloor): number {
		const at = moment(day, time);
		const lost = this.estimate();
		const last = this.#events.findLastIndex(({ is }) => is === 'read');
		const read = this.#events[last];
		if (!read) return lost.levelAt(at);
		const service = moment(0, '08:00');
		const turn = Math.ceil(read.at + ownHours / 24 - service) + service;
		const mg = (until: number) =>
			this.#events.slice(last).reduce((mg, { is, value }, n, all) => {
				const now = is === 'read' ? value * this.#litres : is === 'given' ? mg + value : mg * (1 - value);
				return now * Math.exp(-lost.loss * ((all[n + 1]?.at ?? until) - (all[n]?.at ?? until)));
			}, 0);
		const stands = mg(turn) / this.#litres;
		const from = read.value < floor ? stands : Math.max(lost.levelAt(turn), Math.min(stands, floor));
		return at < turn ? mg(at) / this.#litres : from * Math.exp(-lost.loss * (at - turn));
	}

	#weighed(all: readonly Guess[], level: number, step: number): Guess[] {
		const litres = this.#litres;
		const least = Math.min(...all.map(({ misfit }) => misfit));
		const weights = all.map(({ misfit }) => Math.exp((least - misfit) / 2));
		const sum = weights.reduce((total, one) => total + one, 0);
		const mean = (of: (guess: Guess) => number) =>
			all.reduce((total, guess, n) => total + of(guess) * ((weights[n] ?? 0) / sum), 0);
		const expected = mean(({ mg }) => mg / litres);
		const spread = mean(({ mg, variance }) => (mg / litres - expected) ** 2 + variance / litres ** 2);
		const kit = (at: number) => (kitShare * at) ** 2 + step ** 2 / 12;
		const far = (level - expected) / Math.sqrt(spread + kit(expected));
		if (far > farAbove || far < -farBelow)
			return all.map((guess) => ({ ...guess, mg: level * litres, variance: kit(level) * litres ** 2 }));
		return all.map((guess) => {
			const off = level * litres - guess.mg;
			const total = guess.variance + kit(expected) * litres ** 2;
			const share = total > 0 ? guess.variance / total : 0;
			return {
				loss: guess.loss,
				misfit: guess.misfit + (total > 0 ? off ** 2 / total : 0),
				mg: guess.mg + share * off,
				variance: guess.variance * (1 - share)
			};
		});
	}
}

function aged(guess: Guess, days: number): Guess {
	const kept = Math.exp(-guess.loss * days);
	const unsure = (dayShare * guess.mg) ** 2 * days;
	return { ...guess, mg: guess.mg * kept, variance: guess.variance * kept ** 2 + unsure };
}

function happened(guess: Guess, { is, value }: Event): Guess {
	if (is === 'given')
		return { ...guess, mg: guess.mg + value, variance: guess.variance + (doseShare * value) ** 2 };
	if (is === 'changed')
		return { ...guess, mg: guess.mg * (1 - value), variance: guess.variance * (1 - value) ** 2 };
	return guess;
}
