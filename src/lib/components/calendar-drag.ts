import type { BandPiece, Chip } from '$lib/calendar';

/** Where a job is put: a day, and in the week with hours a time. */
export interface Drop {
	day: string;
	time?: string | undefined;
}

/** What dragging writes; the page decides whether it may be. Each tells whether it was done. */
export interface Moves {
	tasks: (tasks: readonly string[], drop: Drop) => Promise<boolean>;
	/** a phase's first day, or its last */
	edge: (phase: string, edge: 'from' | 'to', day: string) => Promise<boolean>;
	/** a phase's first or last day by whole days, from the keyboard */
	nudge: (phase: string, edge: 'from' | 'to', days: number) => Promise<boolean>;
}

/** Pixels before a press becomes a drag, so that a click stays a click. */
const threshold = 6;
/** How long what did not move takes to spring back. */
const springMs = 150;

export const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

const dayUnder = (event: PointerEvent): HTMLElement | null =>
	document.elementFromPoint(event.clientX, event.clientY)?.closest<HTMLElement>('[data-day]') ?? null;

/** Follows the pointer until it is let go; `drop` gets what it stood on, if anything. Esc lets go without dropping. */
function follow(
	root: HTMLElement,
	start: PointerEvent,
	drop: (on: HTMLElement) => Promise<boolean> | false,
	dayAt = dayUnder
): void {
	if (start.button !== 0 || start.pointerType === 'touch') return;
	const source = start.currentTarget as HTMLElement;
	let ghost: HTMLElement | null = null;
	let over: HTMLElement | null = null;
	const move = (event: PointerEvent) => {
		const far = Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) > threshold;
		if (!ghost && !far) return;
		ghost ??= ghostOf(source);
		ghost.style.translate = `${event.clientX + 8}px ${event.clientY + 4}px`;
		const day = dayAt(event);
		if (day === over) return;
		over?.classList.remove('drop');
		over = day;
		over?.classList.add('drop');
	};
	const end = async (event: Event) => {
		stop.abort();
		over?.classList.remove('drop');
		if (!ghost) return;
		// the click that follows a drag is not meant; it comes at once or not at all
		const swallow = (click: Event) => (click.stopImmediatePropagation(), click.preventDefault());
		source.addEventListener('click', swallow, { capture: true, once: true });
		setTimeout(() => source.removeEventListener('click', swallow, { capture: true }));
		const meant = event.type === 'pointerup' && over !== null && root.contains(over);
		const moved = meant && over !== null && (await drop(over));
		if (moved) ghost.remove();
		else springBack(ghost, source);
	};
	const stop = new AbortController();
	const { signal } = stop;
	window.addEventListener('pointermove', move, { signal });
	window.addEventListener('pointerup', (event) => void end(event), { signal });
	window.addEventListener('pointercancel', (event) => void end(event), { signal });
	window.addEventListener('keydown', (event) => event.key === 'Escape' && void end(event), { signal });
}

function ghostOf(source: HTMLElement): HTMLElement {
	const ghost = source.cloneNode(true) as HTMLElement;
	ghost.setAttribute('aria-hidden', 'true');
	ghost.removeAttribute('data-tasks');
	ghost.dataset.ghost = '';
	ghost.style.cssText =
		'position:fixed;left:0;top:0;z-index:9;pointer-events:none;max-width:14rem;opacity:.9';
	// inside the same parent, so that it keeps the look of what is dragged
	source.parentElement?.append(ghost);
	return ghost;
}

function springBack(ghost: HTMLElement, source: HTMLElement): void {
	if (calm()) return ghost.remove();
	const { left, top } = source.getBoundingClientRect();
	const back = ghost.animate([{}, { translate: `${left}px ${top}px` }], {
		duration: springMs,
		easing: 'ease-out'
	});
	back.addEventListener('finish', () => ghost.remove());
	back.addEventListener('cancel', () => ghost.remove());
}

/** A job that was moved without being carried shows where it came from. */
export function slide(from: DOMRect, to: HTMLElement): void {
	if (calm()) return;
	const { left, top } = to.getBoundingClientRect();
	to.animate([{ translate: `${from.left - left}px ${from.top - top}px` }, {}], {
		duration: springMs,
		easing: 'ease-out'
	});
}

/** What of a line can be moved: what is done is done. */
export const movable = (chip: Chip): string[] =>
	chip.tasks.filter(({ state }) => state === 'planned' || state === 'open').map(({ id }) => id);

const ofChip = (chip: Chip) => {
	const ids = movable(chip);
	// what is done is asked about too, so that it can say why it stays
	return ids.length > 0 ? ids : chip.tasks.map(({ id }) => id);
};

export function dragChip(
	root: HTMLElement,
	event: PointerEvent,
	chip: Chip,
	day: string,
	moves: Moves
): void {
	follow(root, event, ({ dataset: { day: to = day, time } }) =>
		to === day && (time === undefined || time === chip.time)
			? false
			: moves.tasks(ofChip(chip), { day: to, time })
	);
}

const shifts: Record<string, { days: number; hours: number }> = {
	ArrowLeft: { days: -1, hours: 0 },
	ArrowRight: { days: 1, hours: 0 },
	ArrowUp: { days: -7, hours: -1 },
	ArrowDown: { days: 7, hours: 1 }
};

/** The keyboard's twin of dragging a job: Shift and an arrow, up and down by weeks, or by hours where hours are drawn. */
export const chipShift = (event: KeyboardEvent): { days: number; hours: number } | null =>
	event.shiftKey && !event.altKey && !event.ctrlKey && !event.metaKey ? (shifts[event.key] ?? null) : null;

/** The full hour before or after a time, or a service that lies between. */
export function timeBeside(time: string, by: number, services: readonly string[]): string {
	const before = by < 0 && !time.endsWith(':00') ? 0 : by;
	const hour = Math.min(23, Math.max(0, Number(time.slice(0, 2)) + before));
	const full = `${String(hour).padStart(2, '0')}:00`;
	const between =
		by > 0
			? services.find((one) => one > time && one < full)
			: services.findLast((one) => one < time && one > full);
	return between ?? full;
}

export const moveChip = (chip: Chip, drop: Drop, moves: Moves): Promise<boolean> =>
	moves.tasks(ofChip(chip), drop);

/** Pixels at either end of a band that take hold of its edge. */
const edgeWidth = 14;

export function dragBand(root: HTMLElement, event: PointerEvent, band: BandPiece, moves: Moves): void {
	const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
	const edge =
		band.closes && event.clientX > box.right - edgeWidth
			? 'to'
			: band.opens && event.clientX < box.left + edgeWidth
				? 'from'
				: null;
	if (edge)
		follow(
			root,
			event,
			({ dataset: { day } }) => (day === undefined ? false : moves.edge(band.phase, edge, day)),
			columnUnder
		);
}

/** Bands lie above the days: the day is the one in the same week whose column the pointer is in. */
function columnUnder(event: PointerEvent): HTMLElement | null {
	const week = document.elementFromPoint(event.clientX, event.clientY)?.closest('.week');
	const days = [...(week?.querySelectorAll<HTMLElement>('[data-day]') ?? [])];
	return (
		days.find((day) => {
			const { left, right } = day.getBoundingClientRect();
			return event.clientX >= left && event.clientX < right;
		}) ?? null
	);
}

/** The keyboard's twin of dragging an edge. */
export function bandKey(event: KeyboardEvent, band: BandPiece, moves: Moves): void {
	const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
	if (by === 0 || event.ctrlKey || event.metaKey) return;
	event.preventDefault();
	void moves.nudge(band.phase, event.shiftKey ? 'from' : 'to', by);
}
