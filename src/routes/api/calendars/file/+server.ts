import { calendarDownload, endpoint } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: every run as one calendar file, with the choices of its form. */
export const GET = endpoint(({ url }: RequestEvent) => calendarDownload(url));
