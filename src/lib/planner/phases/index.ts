import type { PhaseKind } from '../../run/index.ts';
import type { PhaseKindRow } from '../phase-kind.ts';
import { dip } from './dip.ts';
import { feed } from './feed.ts';
import { hold } from './hold.ts';
import { lowSalinity } from './low-salinity.ts';
import { observe, settle } from './observe.ts';
import { daily, pulse } from './pulse.ts';
import { release } from './release.ts';
import { transfer } from './transfer.ts';
import { washout } from './washout.ts';

/** Every kind of phase the march knows; a new kind is a file beside this one and a row here. */
export const phaseKindRows: Record<PhaseKind, PhaseKindRow> = {
	settle,
	observe,
	hold,
	pulse,
	daily,
	dip,
	'low-salinity': lowSalinity,
	transfer,
	feed,
	washout,
	release
};
