import { labels } from '$lib/formulary';
import type { ShelfEntry } from '$lib/sheet';

/** Every active ingredient as the sheet offers it. */
export const shelf: readonly ShelfEntry[] = Object.values(labels);
