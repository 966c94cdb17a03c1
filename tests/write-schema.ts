// Writes the published JSON Schema of a plan file from the code: `node tests/write-schema.ts`.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { planJsonSchema } from '../src/lib/run/schema.ts';

const file = fileURLToPath(new URL('../static/lazaret-plan-1.schema.json', import.meta.url));
writeFileSync(file, planJsonSchema());
console.error(`wrote ${file}`);
