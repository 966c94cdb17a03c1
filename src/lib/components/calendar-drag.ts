import type { BandPiece, Chip } from '$lib/calendar';

/** What dragging writes; the page decides whether it may be. */
export interface Moves {
	/** jobs to another day */
	tasks: (tasks: readonly string[], day: string) => void;
	/** a phase's first day, or its last */
	edge: (phase: string, edge: 'from' | 'to', day: string) => void;
	/** a phase's first or last day by whole days, from the keyboard */
	nudge: (phase: string, edge: 'from' | 'to', days: number) => void;
}

/** Pixels before a press becomes a drag, so that a click stays a click. */
const threshold = 6;

const dayUnder = (event: PointerEvent): HTMLElement | null =>
	document.elementFromPoint(event.clientX, event.clientY)?.closest<HTMLElement>('[data-day]') ?? null;

/** Follows the pointer until it is let go; `drop` gets the day it stood on, if any. Esc lets go without dropping. */
function follow(root: HTMLElement, start: PointerEvent, drop: (day: string) => void, dayAt = dayUnder): void {
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
	const end = (event: Event) => {
		stop.abort();
		over?.classList.remove('drop');
		ghost?.remove();
		if (!ghost) return;
		// the click that follows a drag is not meant
		source.addEventListener('click', (click) => (click.stopImmediatePropagation(), click.preventDefault()), {
			capture: true,
			once: true
		});
		const day = over?.dataset.day;
		if (event.type === 'pointerup' && day && root.contains(over)) drop(day);
	};
	const stop = new AbortController();
	const { signal } = stop;
	window.addEventListener('pointermove', move, { signal });
	window.addEventListener('pointerup', end, { signal });
	window.addEventListener('pointercancel', end, { signal });
	window.addEventListener('keydown', (event) => event.key === 'Escape' && end(event), { signal });
}

function ghostOf(source: HTMLElement): HTMLElement {
	const ghost = source.cloneNode(true) as HTMLElement;
	ghost.setAttribute('aria-hidden', 'true');
	ghost.style.cssText =
		'position:fixed;left:0;top:0;z-index:9;pointer-events:none;max-width:14rem;opacity:.9';
	// inside the same parent, so that it keeps the look of what is dragged
	source.parentElement?.append(ghost);
	return ghost;
}

export function dragChip(
	root: HTMLElement,
	event: PointerEvent,
	chip: Chip,
	day: string,
	moves: Moves
): void {
	const ids = chip.tasks
		.filter((task) => task.state === 'planned' || task.state === 'open')
		.map((task) => task.id);
	follow(root, event, (to) => to !== day && moves.tasks(ids, to));
}

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
	if (edge) follow(root, event, (day) => moves.edge(band.phase, edge, day), columnUnder);
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
	moves.nudge(band.phase, event.shiftKey ? 'from' : 'to', by);
}
