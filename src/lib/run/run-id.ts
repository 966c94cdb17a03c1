/** FNV-1a, 64 bit, as 16 hex digits: the same name gives the same id everywhere, without a crypto module. */
export function runIdOf(name: string): string {
	let hash = 0xcbf29ce484222325n;
	for (const byte of new TextEncoder().encode(name))
		hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
	return hash.toString(16).padStart(16, '0');
}
