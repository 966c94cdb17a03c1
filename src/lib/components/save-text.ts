/** Lets the browser save a text as a file. */
export function saveText(name: string, text: string, type = 'text/csv'): void {
	const link = document.createElement('a');
	link.href = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
	link.download = name;
	link.click();
	URL.revokeObjectURL(link.href);
}
