/** The command line: names the verbs, prints their answers, and turns any trouble into one sentence and exit 2. */
import { oneLine, Refusal, type Answer } from './cli/answer.ts';
import { help } from './cli/help.ts';

type Verb = (args: readonly string[]) => Answer | Promise<Answer>;

// each verb is loaded when asked for, so that `water` does not wait for the planner or the store
const verbs: Record<string, () => Promise<Verb>> = {
	plan: async () => (await import('./cli/plan.ts')).plan,
	check: async () => (await import('./cli/check.ts')).check,
	water: async () => (await import('./cli/water.ts')).answerWater,
	people: async () => (await import('./cli/people.ts')).people,
	backup: async () => (await import('./cli/store.ts')).backup,
	restore: async () => (await import('./cli/store.ts')).restore,
	export: async () => (await import('./cli/store.ts')).exportEverything,
	import: async () => (await import('./cli/store.ts')).importFile
};

async function answer(args: readonly string[]): Promise<Answer> {
	const [name, ...rest] = args;
	if (name === undefined)
		return {
			exit: 2,
			say: 'saw no verb, expected one such as plan, check or water: lazaret --help lists them'
		};
	if (name === '--help' || name === '-h' || name === 'help') return { exit: 0, result: help() };
	const load = Object.hasOwn(verbs, name) ? verbs[name] : undefined;
	if (!load) return { exit: 2, say: `saw ${name}, expected one of ${Object.keys(verbs).join(', ')}` };
	const verb = await load();
	return verb(rest);
}

async function main(): Promise<void> {
	let given: Answer;
	try {
		given = await answer(process.argv.slice(2));
	} catch (error) {
		const sentence = error instanceof Refusal ? error.message : `a fault in lazaret itself: ${String(error)}`;
		given = { exit: 2, say: sentence };
	}
	if (given.say !== undefined) process.stderr.write(`${oneLine(given.say)}\n`);
	if (given.result !== undefined)
		process.stdout.write(given.result.replace(/\r?\n$|$/, (end) => end || '\n'));
	process.exitCode = given.exit;
}

// a reader that stops early (head, less) is no fault
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 2));
await main();
