import { createContext } from 'svelte';
import type { UnitSystem } from '$lib/units';

const key = 'lazaret-units';

export interface Units {
	readonly system: UnitSystem;
	choose(system: UnitSystem): void;
}

/** What every screen reads its units from: one choice, kept by the layout, that changes all of them at once. */
export const [useUnits, setUnits] = createContext<Units>();

/** Litres until the keeper says gallons; the choice is remembered by this browser. */
export function keepUnits(): Units {
	let system = $state<UnitSystem>('metric');
	$effect(() => {
		try {
			if (localStorage.getItem(key) === 'us') system = 'us';
		} catch {
			// storage is forbidden: metric
		}
	});
	return {
		get system() {
			return system;
		},
		choose(chosen) {
			system = chosen;
			try {
				localStorage.setItem(key, chosen);
			} catch {
				// storage is forbidden: the choice holds until the page is left
			}
		}
	};
}
