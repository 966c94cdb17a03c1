const utf8 = new TextEncoder();

/**
 * A 64-bit fingerprint of a text's UTF-8 octets as 16 hex digits, to tell "the same as last time" without
 * keeping the text. Not a secret hash. FNV-1a, 64 bit (Fowler, Noll, Vo; the IETF draft on FNV).
 */
export function digest(text: string): string {
	let known = digests.get(text);
	if (known !== undefined) return known;
	// a feed asks for the same texts at every poll; emptied when it grows past reason
	if (digests.size >= MOST_DIGESTS) digests.clear();
	digests.set(text, (known = computed(text)));
	return known;
}

const MOST_DIGESTS = 8000;
const digests = new Map<string, string>();

function computed(text: string): string {
	let high = 0xcbf29ce4;
	let low = 0x84222325;
	for (const octet of utf8.encode(text)) {
		low = (low ^ octet) >>> 0;
		// times the prime 2^40 + 0x1b3, kept to 64 bits in two halves; 2^32 * 0x1b3 is exact in a double
		const product = low * 0x1b3;
		high = (Math.imul(high, 0x1b3) + ((product / 0x100000000) | 0) + (low << 8)) >>> 0;
		low = product >>> 0;
	}
	return half(high) + half(low);
}

const half = (bits: number): string => bits.toString(16).padStart(8, '0');
