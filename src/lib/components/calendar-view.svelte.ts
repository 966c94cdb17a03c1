import type { Week } from '$lib/calendar';

export type Zoom = 'month' | 'week' | 'agenda';

export const zooms: readonly { zoom: Zoom; name: string }[] = [
	{ zoom: 'month', name: 'Weeks' },
	{ zoom: 'week', name: 'One week' },
	{ zoom: 'agenda', name: 'List' }
];

const key = 'lazaret-zoom';

/** How much of the calendar is seen and which day is at hand; the zoom is remembered by this browser. */
export class CalendarView {
	readonly #weeks: () => readonly Week[];
	readonly #today: () => string;
	readonly #narrow: () => boolean;

	zoom: Zoom = $state('month');
	/** the page is being printed: everything is laid out */
	printing = $state(false);
	shownZoom: Zoom = $derived.by(() => (this.printing || this.#narrow() ? 'month' : this.zoom));
	/** weeks that are over are shown too */
	unfolded = $state(false);
	/** the day that was gone to; '' until then */
	focused = $state('');

	days = $derived.by(() => this.#weeks().flatMap((week) => week.days.map(({ day }) => day)));
	focusDay = $derived.by(() => {
		const [first = ''] = this.days;
		return [this.focused, this.#today()].find((day) => this.days.includes(day)) ?? first;
	});
	/** weeks that ended before this one; none where the whole run is over or has not begun */
	over = $derived.by(() => {
		const at = this.#weeks().findIndex(({ days }) => days.some(({ day }) => day === this.#today()));
		return Math.max(0, at);
	});
	shown = $derived.by(() =>
		this.unfolded || this.printing ? this.#weeks() : this.#weeks().slice(this.over)
	);
	/** the week of the day at hand */
	week = $derived.by(() => this.#weeks().find(({ days }) => days.some(({ day }) => day === this.focusDay)));

	constructor(weeks: () => readonly Week[], today: () => string, narrow: () => boolean) {
		this.#weeks = weeks;
		this.#today = today;
		this.#narrow = narrow;
	}

	/** What this browser showed last time. */
	recall() {
		try {
			const kept = zooms.find(({ zoom }) => zoom === localStorage.getItem(key));
			if (kept) this.zoom = kept.zoom;
		} catch {
			// storage is forbidden: weeks
		}
	}

	choose(zoom: Zoom) {
		this.zoom = zoom;
		try {
			localStorage.setItem(key, zoom);
		} catch {
			// storage is forbidden: the choice holds until the page is left
		}
	}

	/** One step nearer or wider, as far as there is one. */
	step(by: number) {
		const to = zooms[zooms.findIndex(({ zoom }) => zoom === this.zoom) + by];
		if (to) this.choose(to.zoom);
	}

	/** Makes a day the one at hand, and unfolds the past where it lies there. */
	focus(day: string) {
		if (!this.days.includes(day)) return;
		this.focused = day;
		const at = this.#weeks().findIndex((week) => week.days.some((one) => one.day === day));
		if (at < this.over) this.unfolded = true;
	}

	/** To the same day of another week. */
	turn(weeks: number) {
		const to = this.days[this.days.indexOf(this.focusDay) + 7 * weeks];
		if (to) this.focused = to;
	}
}
