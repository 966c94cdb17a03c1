import type { Course } from '$lib/sheet';
import { clientId } from './client-id';

type Saved = Pick<Course, 'id' | 'name' | 'phases'>;

/** The courses keepers saved, the same on every device, and how one is added or dropped. */
export class CourseShelf {
	own: readonly Course[] = $state.raw([]);
	/** why the last wish was not granted */
	trouble = $state('');

	async load() {
		const answer = await this.#ask('/api/courses');
		if (!answer) return;
		const { courses } = (await answer.json()) as { courses: Saved[] };
		this.own = courses.map((course) => ({ ...course, about: '', own: true }));
	}

	/** Keeps rows under a name; false when it did not arrive, and `trouble` says why. */
	async keep(name: string, phases: Course['phases']): Promise<boolean> {
		const saved: Saved = { id: clientId(), name: name.trim(), phases };
		const answer = await this.#ask('/api/courses', {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify(saved)
		});
		await this.load();
		return answer !== null;
	}

	async drop(id: string) {
		await this.#ask(`/api/courses/${encodeURIComponent(id)}`, { method: 'DELETE' });
		await this.load();
	}

	async #ask(path: string, init?: RequestInit): Promise<Response | null> {
		try {
			const answer = await fetch(path, init);
			if (answer.ok) {
				this.trouble = '';
				return answer;
			}
			const { error } = (await answer.json()) as { error?: { message: string } };
			this.trouble = `Not done: ${error?.message ?? 'the app did not say why'}.`;
		} catch {
			this.trouble = 'The app cannot be reached, so saved courses cannot be read or changed just now.';
		}
		return null;
	}
}
