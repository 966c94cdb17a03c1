import type { BandPiece, Chip } from '$lib/calendar';

/** What the calendar can do; the page that shows it says how. */
export interface CalendarActs {
	openDay: (day: string, task?: string) => void;
	pickPhase: (phase: string) => void;
	/** shows the reason and the numbers of a job beside it */
	tell: (chip: HTMLElement, what: Chip) => void;
	untell: () => void;
	grabChip: (event: PointerEvent, chip: Chip, day: string) => void;
	/** the keyboard's twin of dragging a job */
	chipKey: (event: KeyboardEvent, chip: Chip, day: string) => void;
	grabBand: (event: PointerEvent, band: BandPiece) => void;
	bandKey: (event: KeyboardEvent, band: BandPiece) => void;
}
