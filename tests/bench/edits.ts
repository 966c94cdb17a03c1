/**
 * Prints what an edit costs in a real browser: `npm run bench:edits`. 200 scripted edits of the sheet of a 45-day
 * run, each typed and entered by key. The typed cell is painted first and the plan a frame later, so both are printed:
 * the share of edits that the Event Timing API reports above 16 ms from key to paint (it rounds to 8 ms, and counts
 * the wait for the next frame); the time from the same key until the frame is done that shows the last change of the
 * calendar and the computed columns; and what the main thread spent on each. Before that the same for keys that only
 * walk the sheet, as what the machine takes for doing next to nothing.
 */
import { rmSync } from 'node:fs';
import { chromium, type CDPSession, type Page } from '@playwright/test';
import { startApp } from '../built-app.ts';
import { findChromium } from '../browser/chromium.ts';

const EDITS = Number(process.env.EDITS ?? 200);
const WARM_UP = 20;
const WALKS = 40;
/** Longer than a keeper's pause between two entries would be on average, shorter than the pause that tries repairs. */
const PAUSE_MS = 120;

const sample = {
	format: 'lazaret-plan/1',
	name: 'Benchmark',
	timeZone: 'America/Chicago',
	service: '08:00',
	tank: { name: 'B', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	source: { name: 'new salt water', ammonia: '0 mg/L', nitrate: '5 mg/L', salinity: '34 ppt' },
	lots: [
		{
			id: 'a',
			what: 'cardinalfish',
			group: 'cardinalfish',
			count: 5,
			mass: '64 g',
			feed: '1.6 g/d',
			protein: 0.09,
			arrived: '2031-03-03'
		}
	],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
	],
	phases: [
		{
			id: 'settle',
			kind: 'observe',
			starts: 'on 2031-03-03',
			lasts: '3 d',
			change: 'auto',
			test: 'NH3 daily'
		},
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '22 d',
			level: '0.15-0.20 mg/L',
			repeat: 'ramp 2 d',
			change: 'auto',
			test: 'Cu daily, NH3 daily'
		},
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with copper + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		{
			id: 'wash',
			kind: 'washout',
			medicine: 'cu',
			starts: 'after copper',
			lasts: 'until clear',
			level: '0.02 mg/L',
			change: '50% daily',
			test: 'Cu daily'
		},
		{ id: 'watch', kind: 'observe', starts: 'after wash', lasts: '14 d', change: '25% every 3 d' },
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};

/** Row and column from 0, and two texts that take turns. */
const script: [row: number, column: number, texts: [string, string]][] = [
	[1, 3, ['21 d', '22 d']],
	[4, 3, ['13 d', '14 d']],
	[2, 5, ['every 8 d', 'every 7 d']],
	[0, 3, ['4 d', '3 d']],
	[4, 6, ['30% every 3 d', '25% every 3 d']],
	[1, 4, ['0.16-0.20 mg/L', '0.15-0.20 mg/L']],
	[2, 2, ['with 2 + 3 d', 'with 2 + 2 d']],
	[0, 7, ['NH3 daily, pH weekly', 'NH3 daily']]
];

/** What the page notes: the longest event by the Event Timing API, and when the plan was seen, from the key on. */
interface Seen {
	longest: number;
	planned: number;
}

const spent = ['ScriptDuration', 'LayoutDuration', 'RecalcStyleDuration', 'TaskDuration'] as const;

async function metrics(session: CDPSession): Promise<Record<string, number>> {
	const { metrics: all } = await session.send('Performance.getMetrics');
	return Object.fromEntries(all.map(({ name, value }) => [name, value]));
}

/** Runs in the page: notes what every key costs in `seen`. */
function watch() {
	const all = globalThis as unknown as { seen: Seen };
	let pressed = 0;
	all.seen = { longest: 0, planned: 0 };
	new PerformanceObserver((list) => {
		for (const { duration } of list.getEntries()) all.seen.longest = Math.max(all.seen.longest, duration);
	}).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
	addEventListener('keydown', ({ timeStamp }) => (pressed = timeStamp), true);
	const drawn = new MutationObserver(() =>
		requestAnimationFrame(() => {
			const { port1, port2 } = new MessageChannel();
			port1.onmessage = () => (all.seen.planned = performance.now() - pressed);
			port2.postMessage(null);
		})
	);
	addEventListener('load', () => {
		const deep = { subtree: true, childList: true, characterData: true, attributes: true };
		for (const part of document.querySelectorAll('section.calendar, td.computed .text'))
			drawn.observe(part, deep);
	});
}

async function press(page: Page, key: string): Promise<Seen> {
	await page.waitForTimeout(PAUSE_MS);
	await page.evaluate(() => ((globalThis as unknown as { seen: Seen }).seen = { longest: 0, planned: 0 }));
	await page.keyboard.press(key);
	await page.waitForTimeout(PAUSE_MS);
	return page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
}

async function edit(page: Page, n: number): Promise<Seen> {
	const [row, column, texts] = script[n % script.length] ?? [0, 3, ['3 d', '4 d']];
	await page.locator(`[data-row="${row}"][data-column="${column}"]`).click();
	await page.keyboard.insertText(texts[Math.floor(n / script.length) % 2] ?? '');
	return press(page, 'Enter');
}

function say(what: string, seen: readonly Seen[]) {
	const over = seen.filter(({ longest }) => longest > 16).length;
	const most = Math.max(...seen.map(({ longest }) => longest));
	console.log(
		`${what}: ${over} of ${seen.length} (${((100 * over) / seen.length).toFixed(1)} %) above 16 ms by the Event Timing API, the longest ${most} ms`
	);
}

const part = (sorted: readonly number[], share: number) =>
	(sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN).toFixed(0);

const { executablePath, args, env } = findChromium();
const app = await startApp();
const browser = await chromium.launch({ executablePath, args, env });
try {
	const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
	await page.addInitScript(watch);
	const made = await page.request.post(`${app.url}/api/runs`, { data: { id: 'bench', document: sample } });
	if (made.status() !== 201) throw new Error(await made.text());
	await page.goto(`${app.url}/runs/bench`);
	await page.locator('html[data-hydrated]').waitFor();
	for (let n = 0; n < WARM_UP; n++) await edit(page, n);

	const walked: Seen[] = [];
	for (let n = 0; n < WALKS; n++) walked.push(await press(page, n % 2 ? 'ArrowUp' : 'ArrowDown'));
	say('walking', walked);

	const session = await page.context().newCDPSession(page);
	// CPU time of the main thread, so that other programs on the machine do not count
	await session.send('Performance.enable', { timeDomain: 'threadTicks' });
	const before = await metrics(session);
	const edits: Seen[] = [];
	for (let n = WARM_UP; n < WARM_UP + EDITS; n++) edits.push(await edit(page, n));
	const after = await metrics(session);
	say('editing', edits);
	const planned = edits
		.map((one) => one.planned)
		.filter(Boolean)
		.sort((a, b) => a - b);
	console.log(
		`from the key to the painted plan: half within ${part(planned, 0.5)} ms, 19 of 20 within ${part(planned, 0.95)} ms, all within ${part(planned, 1)} ms (${planned.length} edits changed what is seen of it)`
	);
	for (const name of spent)
		console.log(
			`${name.padEnd(20)} ${((1000 * ((after[name] ?? 0) - (before[name] ?? 0))) / EDITS).toFixed(2)} ms an edit`
		);
} finally {
	await browser.close();
	await app.stop();
	rmSync(app.folder, { recursive: true, force: true });
}
