import type { Actor } from '$lib/server';

declare global {
	namespace App {
		interface Locals {
			/** who acts, as history and log write it */
			who: string;
			/** the same with role and session; null on the pages that are open to all */
			actor: Actor | null;
			/** how the audit calls what was done, where the route alone does not say it */
			deed?: { what: string; about: string };
		}
	}
}
export {};
