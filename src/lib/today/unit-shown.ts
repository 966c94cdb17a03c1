import type { UnitSystem } from '../units/index.ts';
import type { Ask } from './ask.ts';

/** The unit that stands behind the field and is meant when none is typed. It stands alone: a page needs it before it reads anything. */
export const unitShown = ({ what, unit }: Pick<Ask, 'what' | 'unit'>, system: UnitSystem): string =>
	what === 'T' && system === 'us' ? '°F' : unit;
