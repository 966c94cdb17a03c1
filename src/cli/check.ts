import type { Finding } from '../lib/planner/index.ts';
import type { Answer } from './answer.ts';
import { replaceFile } from './file.ts';
import { help } from './help.ts';
import { readNow } from './instant.ts';
import { onlyFile, readArguments } from './options.ts';
import { planOf } from './plan.ts';

/** `lazaret check FILE`: the findings, one a paragraph; exit 1 when one of them is a stop. */
export function check(args: readonly string[]): Answer {
	const {
		words,
		options,
		help: asked
	} = readArguments(args, { as: ['text', 'json'], now: 'text', out: 'text' });
	if (asked) return { exit: 0, result: help() };
	const file = onlyFile(words, 'check');
	const { findings } = planOf(file, readNow(options.now)).plan;
	const exit = findings.some((finding) => finding.severity === 'stop') ? 1 : 0;
	const result =
		options.as === 'json'
			? JSON.stringify({ format: 'lazaret-findings/1', findings }, null, 2)
			: print(findings);
	if (options.out === undefined) return { exit, result };
	replaceFile(options.out, `${result}\n`);
	return { exit, say: `${options.out}: ${count(findings)}` };
}

function print(findings: readonly Finding[]): string {
	return [...findings.map(paragraph), count(findings)].join('\n\n');
}

function paragraph(finding: Finding): string {
	const where = finding.cell ?? finding.task ?? finding.phase;
	const head = [finding.severity, finding.date ?? 'whole run', ...(where ? [where] : []), finding.rule].join(
		' · '
	);
	const repairs = finding.repairs.map((repair) => `  repair: ${repair.title} (${repair.cost})`);
	return [
		head,
		`  ${finding.message}`,
		`  ${finding.because}`,
		`  source: ${finding.source}`,
		...repairs
	].join('\n');
}

function count(findings: readonly Finding[]): string {
	const of = (severity: Finding['severity'], word: string) => {
		const number = findings.filter((finding) => finding.severity === severity).length;
		return `${number} ${number === 1 ? word : `${word}s`}`;
	};
	return `${of('stop', 'stop')}, ${of('caution', 'caution')}, ${of('note', 'note')}`;
}
