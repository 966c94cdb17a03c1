/** A place in a line for what paper knows only within bounds. */
export interface Hole {
	/** the same for whoever reads a message */
	text: string;
	/** a regular expression without groups */
	pattern: string;
	fits: (seen: string) => boolean;
}

/** One line of a screen as paper has it. */
export interface Said {
	text: string;
	fits: (line: string) => boolean;
	/** it may be missing */
	maybe?: boolean;
}

/** A line that may be missing. */
export const maybe = (said: Said): Said => ({ ...said, maybe: true });

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A line in which every figure is written on paper; what is only known within bounds is a hole. */
export function says(parts: TemplateStringsArray, ...holes: readonly (string | number | Hole)[]): Said {
	const filled = holes.map((hole) => (typeof hole === 'object' ? hole : literal(String(hole))));
	const pattern = parts.map(
		(part, n) => escaped(part) + (n < filled.length ? `(${filled[n]?.pattern})` : '')
	);
	const whole = new RegExp(`^${pattern.join('')}$`);
	return {
		text: parts.map((part, n) => part + (filled[n]?.text ?? '')).join(''),
		fits: (line) => {
			const seen = whole.exec(line)?.slice(1);
			return seen !== undefined && filled.every(({ fits }, n) => fits(seen[n] ?? ''));
		}
	};
}

/** The same from pieces. */
export const line = (...pieces: readonly (string | Hole)[]): Said =>
	says(Object.assign(new Array<string>(pieces.length + 1).fill(''), { raw: [] }), ...pieces);

const literal = (text: string): Hole => ({ text, pattern: escaped(text), fits: () => true });

/** A figure printed with at most so many places, no zeros behind. */
export const figure = (value: number, places: number): string => String(Number(value.toFixed(places)));

/** A figure of at most so many places that lies between two, both ends rounded the same way. */
export const between = (least: number, most: number, places: number): Hole => ({
	text: least === most ? figure(least, places) : `[${figure(least, places)} to ${figure(most, places)}]`,
	pattern: places === 0 ? '-?\\d+' : `-?\\d+(?:\\.\\d{1,${places}})?`,
	fits: (seen) => {
		const half = 0.5 * 10 ** -places + 1e-9;
		return Number(seen) >= least - half && Number(seen) <= most + half;
	}
});

/** A time of day not before the one given and within nine minutes of it: the clock of the page goes on while the keeper taps. */
export const clockFrom = (time: string): Hole => ({
	text: `${time}+`,
	pattern: '\\d{2}:\\d{2}',
	fits: (seen) => minutes(seen) >= minutes(time) && minutes(seen) <= minutes(time) + 9
});

const minutes = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
