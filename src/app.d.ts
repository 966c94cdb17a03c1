declare global {
	namespace App {
		interface Locals {
			/** who acts, as history and log write it */
			who: string;
		}
	}
}
export {};
