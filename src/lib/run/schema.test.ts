import { expect, it } from 'vitest';
import { planJsonSchema } from './index.ts';
import { logKinds } from './vocabulary.ts';

interface Schema {
	properties?: Record<string, Schema>;
	items?: Schema;
	oneOf?: Schema[];
	const?: string;
	required?: string[];
	additionalProperties?: boolean;
}
const schema = JSON.parse(planJsonSchema()) as Schema;

it('the published JSON Schema is what the code says: `node tests/write-schema.ts` brings it up to date', async () => {
	await expect(planJsonSchema()).toMatchFileSnapshot('../../../static/lazaret-plan-1.schema.json');
});

it('asks for a format and a zone, and allows no key it does not know', () => {
	expect(schema.required).toEqual(['format', 'timeZone']);
	expect(schema.additionalProperties).toBe(false);
	expect(schema.properties?.tank?.additionalProperties).toBe(false);
});

it('knows every kind of log entry', () => {
	const kinds = schema.properties?.log?.items?.oneOf?.map((entry) => entry.properties?.kind?.const);
	expect(kinds?.toSorted()).toEqual([...logKinds].toSorted());
});
