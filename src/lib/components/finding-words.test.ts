import { expect, it } from 'vitest';
import type { Finding } from '$lib/planner';
import { findingNews, heardOf } from './finding-words.ts';

const finding = (rule: string, severity: Finding['severity'], message = `${rule} is wrong.`): Finding => ({
	rule,
	severity,
	message,
	date: null,
	phase: 'a',
	because: '',
	source: '',
	repairs: []
});
const after = (before: Finding[], now: Finding[]) =>
	findingNews(heardOf({ findings: before }), { findings: now });
const [warn, stop, aside] = [finding('late', 'caution'), finding('twice', 'stop'), finding('kit', 'note')];

it.each<[string, Finding[], Finding[], string]>([
	['the gravest of what is new', [], [warn, stop], 'Stop. twice is wrong. 1 more in the list of checks.'],
	['nothing of notes', [], [aside], ''],
	['nothing of what moved', [warn], [finding('late', 'caution', 'other numbers')], ''],
	['what became graver', [warn], [finding('late', 'stop')], 'Stop. late is wrong.'],
	['how many are left', [warn, stop], [warn], '1 left in the list of checks.'],
	['that all is well', [warn], [aside], 'Nothing stops or warns any more.']
])('says %s', (_, before, now, said) => expect(after(before, now)).toBe(said));
