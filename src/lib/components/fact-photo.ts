import { clientId } from './client-id';

/** Longest side of a picture that is sent; enough for a spot of half a millimetre on a fish of ten centimetres. */
const longest = 1280;

export type Sent = { ok: true; id: string } | { ok: false; sentence: string };

/**
 * Makes a picture smaller and sends it to the run. Drawing it anew also leaves behind what a phone writes into it:
 * where it was taken, and with what.
 */
export async function sendPhoto(run: string, file: File): Promise<Sent> {
	const blob = await smaller(file);
	if (!blob)
		return { ok: false, sentence: 'This file could not be read as a picture: choose a JPEG or PNG.' };
	const id = clientId();
	try {
		const response = await fetch(`/api/photos/${id}?run=${encodeURIComponent(run)}`, {
			method: 'PUT',
			headers: { 'content-type': blob.type },
			body: blob
		});
		if (response.ok) return { ok: true, id };
		const { error } = (await response.json()) as { error?: { message?: string } };
		return { ok: false, sentence: `The picture was not taken: ${error?.message ?? 'no reason was given'}.` };
	} catch {
		return {
			ok: false,
			sentence: 'The app cannot be reached, so the picture was not sent. Choose it again when it is back.'
		};
	}
}

async function smaller(file: File): Promise<Blob | null> {
	try {
		const picture = await createImageBitmap(file);
		const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
		const canvas = document.createElement('canvas');
		canvas.width = Math.max(1, Math.round(picture.width * scale));
		canvas.height = Math.max(1, Math.round(picture.height * scale));
		canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
		return await new Promise((give) => canvas.toBlob(give, 'image/jpeg', 0.8));
	} catch {
		return null;
	}
}
