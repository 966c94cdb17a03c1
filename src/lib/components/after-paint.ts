/**
 * Does something once the frame now being made has been handed over for painting; at once where nobody sees the page,
 * since no frame is made there.
 */
export function afterPaint(act: () => void): void {
	if (document.hidden) return act();
	requestAnimationFrame(() => {
		const { port1, port2 } = new MessageChannel();
		port1.onmessage = () => (port1.close(), act());
		port2.postMessage(null);
	});
}
