import type { Body } from './carcass.ts';
import { figure } from './words.ts';

/** What so many of them may do to the water, and what to do first, in words. */
export function bodyWords({ massG, known, volumeL, mgNPerL }: Body, count: number): string {
	const whose = known
		? `${count} of ${figure(massG, 1)} g`
		: `what they weigh was not written; ${count} of ${figure(massG, 0)} g`;
	const grams = ((count * mgNPerL * volumeL) / 1000).toFixed(1);
	return `Bodies hold nitrogen (${whose}: about ${grams} g); rotted in the tank it is up to ${figure(count * mgNPerL, 1)} mg/L of total ammonia nitrogen in ${figure(volumeL, 0)} L. Take them out, test ammonia and change water, the more so where one was found late.`;
}
