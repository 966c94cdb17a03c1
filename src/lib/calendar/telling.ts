import type { Amount, Finding, Plan, Task } from '../planner/index.ts';
import { displayIn, sentenceIn, type UnitSystem } from '../units/index.ts';

/**
 * An amount as it is read out at the tank: litres to the nearest tenth or in gallons, mL to a hundredth, no padding.
 * What a syringe or a balance measures stays in mL, mg and g, as they are marked.
 */
export function amountIn(system: UnitSystem, { value, unit }: Amount): string {
	if (unit === 'L' && system === 'us') return displayIn('us', 'volume', value);
	const decimals = unit === 'mL' ? 2 : unit === 'L' ? 1 : value < 10 ? 2 : 0;
	const shown =
		unit === 'mL' && Math.abs(value * 10 - Math.round(value * 10)) < 1e-6 ? value.toFixed(1) : null;
	return `${shown ?? Number(value.toFixed(decimals))} ${unit}`;
}

const firstLitres = /\d+(\.\d+)? L(?![\p{L}\d/])/u;

/** A job's text; its own litres are converted from the amount, not from the rounded words. */
function textIn(system: UnitSystem, { text, amount }: Task): string {
	const seen = amount?.unit === 'L' ? firstLitres.exec(text) : null;
	const its = amount && seen && Math.abs(Number.parseFloat(seen[0]) - amount.value) <= 0.05;
	const exact = its ? text.replace(firstLitres, amountIn(system, amount)) : text;
	return sentenceIn(system, exact);
}

const taskIn = (system: UnitSystem, task: Task): Task => ({
	...task,
	text: textIn(system, task),
	because: sentenceIn(system, task.because),
	cautions: task.cautions.map((caution) => sentenceIn(system, caution))
});

const findingIn = (system: UnitSystem, finding: Finding): Finding => ({
	...finding,
	message: sentenceIn(system, finding.message),
	because: sentenceIn(system, finding.because),
	repairs: finding.repairs.map((repair) => ({
		...repair,
		title: sentenceIn(system, repair.title),
		cost: sentenceIn(system, repair.cost)
	}))
});

/**
 * The plan with its sentences in the keeper's units, for screens; numbers and ids stay as they are. Files, feeds and
 * the command line keep the plan's own metric words. Metric gives the same plan back.
 */
export const planIn = (system: UnitSystem, plan: Plan): Plan =>
	system === 'metric'
		? plan
		: {
				...plan,
				tasks: plan.tasks.map((task) => taskIn(system, task)),
				findings: plan.findings.map((finding) => findingIn(system, finding))
			};
