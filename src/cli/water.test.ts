/**
 * `lazaret water`. Numbers: Bell et al. and Emerson et al. by hand, Unesco 44 (density), EOS-80 ratios (gravity),
 * python3-gsw 3.6.16 (conductivity), Benson & Krause 1984 (oxygen), arithmetic (doses, changes, volumes).
 */
import { describe, expect, it } from 'vitest';
import { answerWater } from './water.ts';

/** `name="value"` pairs behind a question's word. */
function typed(line: string): string[] {
	const [ask = '', ...rest] = line.split(' --');
	return [
		ask,
		...rest.flatMap((option) => [`--${option.split(' ')[0]}`, option.split(' ').slice(1).join(' ')])
	];
}

const answered: [string, Record<string, number | string>, number][] = [
	[
		'ammonia --tan 0.5 mg/L --temperature 26 C --salinity 35 ppt --pH 8.1',
		{ pKa: 9.3293914, fraction: 0.05568346, nh3MgNPerL: 0.02784173 },
		1e-8
	],
	[
		'ammonia --tan 1 mg/L --temperature 24 C --salinity 0 ppt --pH 8',
		{ pKa: 9.27719, fraction: 0.0502, nh3MgNPerL: 0.0502 },
		1e-4
	],
	['density --salinity 35 ppt --temperature 25 C', { kgPerM3: 1023.34306 }, 2e-5],
	['density --salinity 0 psu --temperature 77 F', { kgPerM3: 997.04796 }, 2e-5],
	['gravity --salinity 35 ppt --reference 25C/25C', { gravity: 1.02637 }, 2e-5],
	['gravity --salinity 35 ppt --reference 60F/60F', { gravity: 1.02686 }, 2e-5],
	['gravity --salinity 35 ppt --reference 20 °C / 4 °C', { gravity: 1.02479 }, 2e-5],
	['salinity --gravity 1.025 --reference 25C/25C', { salinityPpt: 33.19 }, 0.02],
	['salinity --gravity 1.025 (20C/4C)', { salinityPpt: 35.28 }, 0.02],
	['salinity --conductivity 53.0710 mS/cm --temperature 25 C', { salinityPpt: 35 }, 1e-3],
	['oxygen --temperature 26 C --salinity 35 ppt', { saturationMgPerL: 6.6587 }, 5e-4],
	['dose --volume 100 L --from 0.1 mg/L --to 0.2 mg/L --strength 1 mg/mL', { value: 10, unit: 'mL' }, 1e-9],
	['dose --volume 112 L --from 0 mg/L --to 2.5 mg/L --strength 1 g/g', { value: 280, unit: 'mg' }, 1e-9],
	['dose --volume 44 L --from 12.5 ppm --to 25 ppm --strength 1 mL/mL', { value: 0.55, unit: 'mL' }, 1e-12],
	['dose --volume 100 L --from 16 ppt --to 20 ppt --strength 1 g/g', { value: 411.5, unit: 'g' }, 0.5],
	[
		'dose --volume 112 L --from 0 mg/L --to 0.09 mg/L --strength 2 mg/mL --measure 0.1 mL',
		{ value: 5, unit: 'mL' },
		0
	],
	['dose --volume 112 L --from 0 mg/L --to 0.09 mg/L --strength 2 mg/mL', { value: 5.04, unit: 'mL' }, 1e-12],
	['changes --from 2 mg/L --to 0.02 mg/L --fraction 50%', { changes: 7, residual: 0.015625 }, 1e-15],
	['changes --from 2 mg/L --to 20 ppb --fraction 0.5', { changes: 7, residual: 0.015625 }, 1e-15],
	['changes --from 200 ug/L --to 0.02 mg/L --fraction 50 %', { changes: 4, residual: 12.5 }, 1e-12],
	['changes --from 25 uL/L --to 1.5 ppm --fraction 50%', { changes: 5, residual: 0.78125 }, 1e-12],
	['volume --shape box --length 60 cm --width 30 cm --depth 35 cm --displacement 5 L', { litres: 58 }, 1e-9],
	['volume --shape box --length 16 ft --width 30 in --depth 20 in', { litres: 1887.7898 }, 1e-3],
	['volume --shape cylinder --diameter 20 cm --depth 10 cm', { litres: Math.PI }, 1e-12]
];

describe('answers', () => {
	it.each(answered)('%s', (line, wanted, within) => {
		const answer = answerWater(typed(line));
		expect(answer.say).toBeUndefined();
		expect(answer.exit).toBe(0);
		const json = JSON.parse(answer.result ?? '') as Record<string, number | string>;
		expect(Object.keys(json)).toEqual(Object.keys(wanted));
		for (const [key, value] of Object.entries(wanted)) {
			if (typeof value === 'string') expect(json[key]).toBe(value);
			else expect(Math.abs(Number(json[key]) - value)).toBeLessThanOrEqual(within);
		}
	});
	it('takes --name=value and any case of a name', () => {
		const loose = ['ammonia', '--TAN=0.5 mg/L', '--temperature=26 C', '--salinity=35 ppt', '--ph=8.1'];
		const strict = typed('ammonia --tan 0.5 mg/L --temperature 26 C --salinity 35 ppt --pH 8.1');
		expect(answerWater(loose)).toEqual(answerWater(strict));
	});
	it('explains itself', () => {
		expect(answerWater(['--help']).result).toMatch(/lazaret water ammonia --tan/);
		expect(answerWater(['oxygen', '--help']).result).toMatch(/Benson and Krause 1984/);
	});
});

const refused: [string, RegExp][] = [
	['', /expected one of dose/],
	['soup', /saw soup, expected one of dose/],
	['ammonia --tan 0.5 mg/L --temperature 26 C --salinity 35 ppt', /--pH: saw nothing/],
	[
		'ammonia --tan 0.5 --temperature 26 C --salinity 35 ppt --pH 8.1',
		/--tan: saw 0\.5, expected a concentration/
	],
	['ammonia --tan 0.5 mg/L --temperature 26 --salinity 35 ppt --pH 8.1', /--temperature: saw 26, expected/],
	['ammonia --tan 0.5 mg/L --temperature 60 C --salinity 35 ppt --pH 8.1', /--temperature.*from 0 to 40 °C/],
	['ammonia --tan 0.5 mg/L --temperature 26 C --salinity 90 ppt --pH 8.1', /--salinity.*from 0 to 45 ppt/],
	['ammonia --tan 0.5 mg/L --temperature 26 C --salinity 35 ppt --pH 15', /--pH.*from 4 to 12/],
	['ammonia --tan 0.5 mg/L --temperature 26 C --salinity 1.025 --pH 8', /--salinity.*reference pair/],
	['ammonia --tan 0.5 mg/L --tan 0.5 mg/L', /--tan twice/],
	['ammonia --fish 3', /saw --fish, expected one of --tan/],
	['ammonia --tan', /--tan: saw no value/],
	['density --salinity 43 ppt --temperature 25 C', /from 0 to 42 ppt/],
	['gravity --salinity 35 ppt --reference 25/25', /--reference: saw 25\/25/],
	['salinity --gravity 1.025', /--reference: .*33\.2 ppt at 25C\/25C/],
	['salinity --gravity 1.025 (25C/25C) --reference 20C/4C', /--reference: saw 20C\/4C/],
	['salinity --gravity 1.5 --reference 25C/25C', /--gravity.*0 to 42 ppt/],
	['salinity --conductivity 53 mS/cm', /--temperature: saw nothing/],
	['salinity --conductivity 53 mS/cm --gravity 1.025', /together, expected --gravity and --reference, or/],
	['salinity --conductivity 0.1 mS/cm --temperature 25 C', /salinity from 2 to 42 ppt/],
	['salinity', /too few options/],
	['oxygen --temperature 50 C --salinity 0 ppt', /from 0 to 40 °C/],
	['dose --volume 0 L --from 0 mg/L --to 1 mg/L --strength 2 mg/mL', /--volume: saw 0 L/],
	['dose --volume 112 L --from 0.2 mg/L --to 0.1 mg/L --strength 2 mg/mL', /--to.*not below/],
	['dose --volume 112 L --from 0 mg/L --to 25 mg/L --strength 1 mL/mL', /--from.*whole liquid/],
	['dose --volume 112 L --from 0 uL/L --to 25 uL/L --strength 2 mg/mL', /--from.*by mass/],
	['dose --volume 112 L --from 0 mg/L --to 1 mg/L --strength 37 %', /--strength.*w\/v, % w\/w or % v\/v/],
	['dose --volume 112 L --from 0 mg/L --to 1 mg/L --strength 2 mg/mL --measure 10 mg', /--measure.*mL/],
	[
		'changes --from 2 mg/L --to 0.02 mg/L --fraction 25',
		/--fraction: saw 25, expected a fraction from 0 to 1/
	],
	['changes --from 2 mg/L --to 0.02 mg/L --fraction 0', /--fraction.*above 0/],
	['changes --from 2 mg/L --to 0 mg/L --fraction 50%', /--to.*above 0/],
	['changes --from 2 mg/L --to 16 ppt --fraction 50%', /--to.*same kind of unit as 2 mg\/L/],
	['volume --shape sphere', /--shape: saw sphere, expected one of box/],
	[
		'volume --shape box --length 60 cm --width 30 cm --depth 35 cm --diameter 3 cm',
		/--diameter with --shape box/
	],
	[
		'volume --shape box --length 60 cm --width 30 cm --depth 35 cm --displacement 80 L',
		/--displacement.*63 L/
	],
	['volume --shape box --length 60 --width 30 cm --depth 35 cm', /--length: saw 60, expected a length/]
];

describe('refusals: exit 2, nothing on stdout, one sentence', () => {
	it('a word outside the options is refused, though all of them are there', () => {
		const answer = answerWater(['oxygen', '--temperature', '25 C', '--salinity', '35', 'ppt']);
		const whole = answerWater(['oxygen', '--temperature', '25 C', '--salinity', '35 ppt', 'please']);
		expect([answer.exit, whole.exit]).toEqual([2, 2]);
		expect(whole.say).toMatch(/saw please outside an option/);
	});
	it.each(refused)('%s', (line, sentence) => {
		const answer = answerWater(line === '' ? [] : typed(line).filter((arg) => arg !== ''));
		expect(answer.exit).toBe(2);
		expect(answer.result).toBeUndefined();
		expect(answer.say).toMatch(sentence);
		expect(answer.say).not.toContain('\n');
	});
});
