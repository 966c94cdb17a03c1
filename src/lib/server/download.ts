/** A file to be saved by the browser; its name may be in any script. */
export function download(body: string, type: string, name: string): Response {
	const plain = name.normalize('NFKD').replace(/[^\w.-]+/g, '_');
	return new Response(body, {
		headers: {
			'content-type': `${type}; charset=utf-8`,
			'content-disposition': `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name)}`
		}
	});
}
