import { read, readMassMg, readNumber, readIn, unreadable, type Read } from '../units/index.ts';
import type { JobRow } from './job-row.ts';

const water: readonly JobRow['kind'][] = ['change', 'washout', 'topoff'];

/** What a job is measured out in: water in litres, a liquid in millilitres, a powder by its weight. */
export const measuredIn = ({ amount, kind }: Pick<JobRow, 'amount' | 'kind'>): string =>
	amount?.unit ?? (water.includes(kind) ? 'L' : 'mL');

/**
 * What was poured, as the log takes it: a bare number is meant in the unit of the job, another unit has to measure the
 * same. Nothing poured is a job that was skipped, and no change takes more than the tank holds.
 */
export function readPoured(
	row: Pick<JobRow, 'amount' | 'amountText' | 'kind' | 'fraction'>,
	text: string
): Read<string> {
	const unit = measuredIn(row);
	const bare = readNumber(text);
	const whole = bare.ok ? `${bare.value} ${unit}` : text.trim();
	const mass = unit === 'mg' || unit === 'g';
	const amount = mass ? readMassMg(whole) : readIn(whole, 'volume', unit);
	if (!amount.ok)
		return unreadable('unit', text, `an amount in ${unit}, such as ${row.amountText || `3.0 ${unit}`}`);
	if (amount.value <= 0)
		return unreadable('out-of-range', text, 'more than nothing: what was not done is skipped, with a reason');
	const holdsL = row.amount && row.fraction ? row.amount.value / row.fraction : Infinity;
	// the tank is measured to half a per cent at best
	if (unit === 'L' && amount.value > holdsL * 1.005)
		return unreadable('out-of-range', text, `at most the ${Number(holdsL.toFixed(1))} L in the tank`);
	return read(`${Number(amount.value.toPrecision(6))} ${mass ? 'mg' : unit}`);
}
