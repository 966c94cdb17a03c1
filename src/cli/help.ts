const verbs: readonly [string, string][] = [
	['plan FILE', 'the dated tasks of a plan file'],
	['check FILE', 'only the findings; exits 1 when one of them is a stop'],
	['water QUESTION', 'one question about water, e.g. salinity or toxic ammonia'],
	['people', 'who may enter; people add NAME keeper, role, passphrase, out, remove'],
	['backup FILE', 'a consistent copy of the store, while the app runs'],
	['restore FILE', 'puts a backup in place, keeps what it replaces'],
	['export FILE', 'everything in the store as one JSON file'],
	['import FILE', 'takes such a file, or a plan file, into the store']
];

const options: readonly [string, string][] = [
	['--as text|json|csv|ics', 'the form of a plan (default text); check knows text and json'],
	['--now INSTANT', 'plan as of then; default: the clock'],
	['--out FILE', 'write there instead of on standard output, whole or not at all'],
	['--since OLD.ics', 'hand on stamps of tasks that have not changed since that calendar file'],
	['--kinds dose,test', 'of a calendar file: only these kinds of task; default: all'],
	['--alarms dose=30,test=0', 'of a calendar file: minutes before, by kind; default: silent'],
	['--per task|service', 'of a calendar file: one entry for each (default task)'],
	['--times timed|days', 'of a calendar file: at their times (default) or as whole days'],
	['--passphrase-file FILE', 'people: its first line instead of asking; - is standard input'],
	['--help', 'this page; `lazaret water --help` for the questions']
];

const examples: readonly string[] = [
	'npm run -s lazaret -- plan autumn.json',
	'npm run -s lazaret -- plan autumn.json --as ics --out autumn.ics',
	'npm run -s lazaret -- plan autumn.json --as ics --since autumn.ics --out autumn.ics',
	'npm run -s lazaret -- plan - --as json --now 2026-11-27T09:00:00Z < autumn.json',
	'npm run -s lazaret -- check autumn.json',
	'npm run -s lazaret -- people add Kim keeper',
	'npm run -s lazaret -- water --help'
];

const table = (rows: readonly [string, string][]) => {
	const width = Math.max(...rows.map(([left]) => left.length));
	return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`).join('\n');
};

/** The page `lazaret --help` prints. */
export const help = (): string => `lazaret VERB [FILE] [OPTIONS]: plans the quarantine of marine fish

Verbs
${table(verbs)}

FILE may be - for standard input (plan, check, import).

Options
${table(options)}

Exit codes
  0  done, even when the plan has stops
  1  check found a stop
  2  the input cannot be read, the usage is wrong, or a question is outside its range

Examples
${examples.map((line) => `  ${line}`).join('\n')}

The product label, a veterinarian and local law come before anything printed here.`;
