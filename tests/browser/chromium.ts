import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { chromium } from '@playwright/test';

/** What Playwright needs to start the browser found. */
export interface Browser {
	executablePath?: string;
	args: string[];
	env?: Record<string, string>;
}

// the browser talks to the app under test and to nobody else
const quiet = [
	'--disable-gpu',
	'--disable-quic',
	'--no-first-run',
	'--disable-background-networking',
	'--disable-component-update',
	'--disable-sync'
];

const usualPlaces: Partial<Record<NodeJS.Platform, string[]>> = {
	linux: [
		// starts twice as fast as the whole browser
		'/usr/bin/chromium-headless-shell',
		'/usr/bin/chromium',
		'/usr/bin/chromium-browser',
		'/usr/bin/google-chrome',
		'/usr/bin/google-chrome-stable',
		'/usr/bin/microsoft-edge'
	],
	darwin: [
		'/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
		'/Applications/Chromium.app/Contents/MacOS/Chromium',
		'/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge'
	],
	win32: [
		join(process.env.PROGRAMFILES ?? 'C:\\Program Files', 'Google\\Chrome\\Application\\chrome.exe'),
		join(
			process.env['PROGRAMFILES(X86)'] ?? 'C:\\Program Files (x86)',
			'Microsoft\\Edge\\Application\\msedge.exe'
		)
	]
};

/**
 * A Chromium for the browser tests: `CHROMIUM_PATH`, else Playwright's own, else one of the system, else (Linux
 * x64) the one inside the package @sparticuz/chromium. Throws a sentence that says what to do when there is none.
 */
export function findChromium(): Browser {
	const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
	const args = asRoot ? [...quiet, '--no-sandbox'] : quiet;
	if (process.env.CHROMIUM_PATH) return { executablePath: process.env.CHROMIUM_PATH, args };
	// LAZARET_CHROMIUM=bundled leaves out what the machine has, to try what a bare one would do
	if (process.env.LAZARET_CHROMIUM !== 'bundled') {
		const found = [chromium.executablePath(), ...(usualPlaces[process.platform] ?? [])].find((path) =>
			existsSync(path)
		);
		if (found) return { executablePath: found, args };
	}
	const folder = process.platform === 'linux' && process.arch === 'x64' ? unpackBundled() : null;
	if (folder) return bundled(folder);
	throw new Error('no Chromium found: install Chromium, Chrome or Edge, or set CHROMIUM_PATH to one');
}

function bundled(folder: string): Browser {
	const libraries = [join(folder, 'lib'), process.env.LD_LIBRARY_PATH].filter(Boolean).join(':');
	return {
		executablePath: join(folder, 'chromium'),
		// this build has no set-uid sandbox and dies in its zygote without one
		args: [...quiet, '--no-sandbox', '--no-zygote'],
		env: {
			...(process.env as Record<string, string>),
			LD_LIBRARY_PATH: libraries,
			FONTCONFIG_FILE: join(folder, 'fonts.conf')
		}
	};
}

/**
 * Unpacks the package's browser, libraries and font once per version, in a folder that appears whole or not at
 * all. The package's own unpacking is not used: it shares one temporary folder and trusts what it finds there.
 */
function unpackBundled(): string | null {
	const root = join(import.meta.dirname, '../..');
	const packed = join(root, 'node_modules/@sparticuz/chromium');
	if (!existsSync(join(packed, 'bin/chromium.br'))) return null;
	const { version } = JSON.parse(readFileSync(join(packed, 'package.json'), 'utf8')) as { version: string };
	const folder = join(root, 'node_modules/.cache', `chromium-${version}`);
	if (existsSync(folder)) return folder;
	const part = `${folder}.${process.pid}`;
	mkdirSync(part, { recursive: true });
	writeFileSync(join(part, 'chromium'), inflate(join(packed, 'bin/chromium.br')), { mode: 0o755 });
	for (const archive of ['al2023', 'fonts', 'swiftshader']) {
		execFileSync('tar', ['-x', '-C', part], { input: inflate(join(packed, 'bin', `${archive}.tar.br`)) });
	}
	writeFileSync(join(part, 'fonts.conf'), fontsConf(folder));
	try {
		renameSync(part, folder);
	} catch (error) {
		rmSync(part, { recursive: true });
		if (!existsSync(folder)) throw error;
	}
	return folder;
}

const inflate = (path: string) => brotliDecompressSync(readFileSync(path));

/** The system's fonts where there are any, and the package's own: with none at all the page cannot be drawn. */
const fontsConf = (folder: string) => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
	<include ignore_missing="yes">/etc/fonts/fonts.conf</include>
	<dir>${folder}/fonts</dir>
	<cachedir>${folder}/fonts-cache</cachedir>
</fontconfig>
`;
