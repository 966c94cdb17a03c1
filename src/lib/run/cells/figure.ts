const decimalsOf = (text: string): number => text.split('.')[1]?.length ?? 0;

/** A number in plain figures, free of the noise that arithmetic leaves in the last digits. */
export function figure(value: number, decimals = 0): string {
	const clean = Number(value.toPrecision(12));
	const text = String(clean);
	if (text.includes('e')) return clean >= 1 ? text : clean.toFixed(20).replace(/0+$/, '');
	return decimalsOf(text) < decimals ? clean.toFixed(decimals) : text;
}

/** `0.15-0.20`: both ends with as many decimals; one number where they are the same. */
export function figures(low: number, high: number): string {
	if (low === high) return figure(low);
	const decimals = Math.max(decimalsOf(figure(low)), decimalsOf(figure(high)));
	return `${figure(low, decimals)}-${figure(high, decimals)}`;
}
