/** Has this page kept for a reload without network. Browsers allow it over https and on the device itself only. */
export async function keepPage(): Promise<void> {
	if (!('serviceWorker' in navigator)) return;
	try {
		await navigator.serviceWorker.register('/service-worker.js', {
			type: import.meta.env.DEV ? 'module' : 'classic'
		});
		const { active } = await navigator.serviceWorker.ready;
		active?.postMessage('keep');
		document.documentElement.dataset.kept = '';
	} catch {
		// forbidden by the browser: the page works, it cannot be opened without network
	}
}
