import type { BandPiece, Chip } from '$lib/calendar';

/** What the calendar can do; the page that shows it says how. */
export interface CalendarActs {
	openDay: (day: string, task?: string) => void;
	pickPhase: (phase: string) => void;
	hover: (event: PointerEvent, chip: Chip) => void;
	unhover: () => void;
	grabChip: (event: PointerEvent, chip: Chip, day: string) => void;
	grabBand: (event: PointerEvent, band: BandPiece) => void;
	bandKey: (event: KeyboardEvent, band: BandPiece) => void;
}
