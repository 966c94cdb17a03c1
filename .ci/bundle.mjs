/** Bundles the command line or the server entry into `build/`, with Vite's own bundler and no Kit around it. */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const what = process.argv[2];
const entry = { cli: 'src/cli.ts', server: 'src/server.ts' }[what];
if (!entry) throw new Error(`bundle.mjs: saw ${what}, expected cli or server`);

await build({
	root,
	configFile: false,
	publicDir: false,
	logLevel: 'warn',
	resolve: { alias: { $lib: join(root, 'src/lib') } },
	ssr: { noExternal: true, external: ['pg-native'] },
	build: {
		ssr: join(root, entry),
		outDir: join(root, 'build', what),
		emptyOutDir: true,
		target: 'node22',
		rolldownOptions: { output: { entryFileNames: `${what}.js`, format: 'esm' } }
	}
});
