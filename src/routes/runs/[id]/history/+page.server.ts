import { randomUUID } from 'node:crypto';
import { error, fail, redirect } from '@sveltejs/kit';
import { editWords, saveWords } from '$lib/components/edit-words';
import type { SheetDocument } from '$lib/sheet';
import { currentStore, documentAt, getRun, history, idSchema, restoreVersion } from '$lib/server';
import type { Actions, PageServerLoad } from './$types';

const most = 100;
const numberIn = (text: string | null) =>
	text !== null && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : undefined;

/** The saves of a run, and the state after one of them. */
export const load: PageServerLoad = async ({ params, url }) => {
	const run = await getRun(currentStore(), params.id);
	if (!run) error(404, 'There is no such run.');
	const shown = numberIn(url.searchParams.get('version')) ?? run.version;
	const document = await documentAt(currentStore(), run.id, shown);
	if (!document) error(404, `The run has no version ${shown}.`);
	const before = numberIn(url.searchParams.get('before')) ?? Math.max(shown + most / 2, most) + 1;
	const rows = await history(currentStore(), run.id, most, before);
	const saves = rows.map(({ edits, what, ...row }) => ({
		...row,
		what: saveWords[what] ?? what,
		changes: edits.map(editWords)
	}));
	const { phases = [], medicines, tank } = document as Partial<SheetDocument>;
	const { id, name, version, deleted } = run;
	return {
		run: { id, name, version, deleted },
		shown,
		saves,
		document: { phases, medicines, tank } as SheetDocument,
		act: randomUUID()
	};
};

export const actions: Actions = {
	default: async ({ params, request, locals }) => {
		const form = await request.formData();
		const id = idSchema.safeParse(form.get('act'));
		const version = numberIn(String(form.get('version')));
		if (!id.success || version === undefined) return fail(422, { sentence: 'Saw no version, expected one.' });
		const by = { id: id.data, who: locals.who };
		const done = await restoreVersion(currentStore(), params.id, version, by);
		if (done.kind !== 'saved') return fail(404, { sentence: `The run has no version ${version}.` });
		locals.deed = { what: `put version ${version} of a run back`, about: params.id };
		redirect(303, `/runs/${encodeURIComponent(params.id)}`);
	}
};
