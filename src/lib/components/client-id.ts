/** An id nobody else makes: 128 random bits. Not `randomUUID`, which plain http on a home network does not have. */
export function clientId(): string {
	const bytes = crypto.getRandomValues(new Uint8Array(16));
	return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
