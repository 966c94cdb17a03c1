import { readPouredAmount } from '../run/index.ts';
import { read, readNumber, type Read } from '../units/index.ts';
import type { JobRow } from './job-row.ts';

/** What a job is measured out in: water in litres, a liquid in millilitres, a powder by its weight. */
export const measuredIn = ({ amount, takes }: Pick<JobRow, 'amount' | 'takes'>): string =>
	takes.unit ?? amount?.unit ?? 'mL';

const measuredKinds = ['dose', 'dip', 'feed', 'change', 'washout', 'topoff', 'salinity'];

/** Is anything measured out for it? Taking fish in or looking at them takes no amount. */
export const isMeasured = ({ amount, kind }: Pick<JobRow, 'amount' | 'kind'>): boolean =>
	amount !== null || measuredKinds.includes(kind);

/** What was poured, as the log takes it: a bare number is meant in the unit of the job, and the log's own bounds hold. */
export function readPoured(row: Pick<JobRow, 'amount' | 'amountText' | 'takes'>, text: string): Read<string> {
	const bare = readNumber(text);
	const whole = bare.ok ? `${bare.value} ${measuredIn(row)}` : text.trim();
	const poured = readPouredAmount(whole, row.takes, row.amountText);
	if (!poured.ok) return poured;
	const { value, unit } = poured.value;
	return read(`${Number(value.toPrecision(6))} ${unit}`);
}
