import { faultOf } from './fault.ts';
import { refusal } from './request.ts';

/**
 * Wraps a JSON endpoint: a broken disk or database becomes a 503 with a plain sentence, so that the client keeps
 * what was typed and tries again. Anything else that is thrown is a bug and goes to the error hook.
 */
export function endpoint<E>(act: (event: E) => Promise<Response>): (event: E) => Promise<Response> {
	return async (event) => {
		try {
			return await act(event);
		} catch (error) {
			const fault = faultOf(error);
			if (!fault) throw error;
			return refusal(503, fault.code, fault.sentence);
		}
	};
}
