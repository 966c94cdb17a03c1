import AxeBuilder from '@axe-core/playwright';
import { expect, test, visit } from './app.ts';

test.beforeEach(async ({ page }) => {
	await visit(page, '/water');
});

test('answers as fields are typed, and keeps them as typed', async ({ page }) => {
	const ammonia = page.getByRole('region', { name: 'Toxic ammonia' });
	await ammonia.getByLabel('Total ammonia').fill('0.5 mg/L');
	await ammonia.getByLabel('Temperature').fill('79 F');
	await expect(ammonia).toContainText('Still open: Salinity, pH');
	await ammonia.getByLabel('Salinity').fill('35 ppt');
	await ammonia.getByLabel('pH', { exact: true }).fill('8.1');
	// Bell et al. 2007 at 26.1 °C, 35 ppt, pH 8.1: 5.61 % of 0.5 mg/L
	await expect(ammonia).toContainText('0.028 mg/L');
	await expect(ammonia.getByLabel('Temperature')).toHaveValue('79 F');
});

/** total ammonia, temperature, salinity, pH, the answer as shown, who printed it */
const ammonias = [
	[
		'1 mg/L',
		'24 C',
		'0 ppt',
		'8.0',
		/NH3-N\s*0\.050 mg\/L/,
		'UF/IFAS FA16 Ammonia, the worked example, 0.0502'
	],
	// pKa = 10.0423 - 0.8203936 + 0.107485 = 9.3293914; 1 / (1 + 10^1.2293914) = 5.568 %
	[
		'0.5 mg/L',
		'26 C',
		'35 ppt',
		'8.1',
		/un-ionised share\s*5\.6 %\s*pKa\s*9\.3294/,
		'coefficients of Bell et al. 2007 and 2008'
	]
] as const;
for (const [total, temperature, salinity, pH, shown, source] of ammonias) {
	test(`toxic ammonia of ${total} at ${temperature}, ${salinity}, pH ${pH}; ${source}`, async ({ page }) => {
		const ammonia = page.getByRole('region', { name: 'Toxic ammonia' });
		await ammonia.getByLabel('Total ammonia').fill(total);
		await ammonia.getByLabel('Temperature').fill(temperature);
		await ammonia.getByLabel('Salinity').fill(salinity);
		await ammonia.getByLabel('pH', { exact: true }).fill(pH);
		await expect(ammonia).toContainText(shown);
	});
}

// EOS-80 one-atmosphere densities, UNESCO 44 (1983): 33.19, 32.59 and 35.28
for (const [pair, ppt] of [
	['25C/25C', '33.2 ppt'],
	['60F/60F', '32.6 ppt'],
	['20C/4C', '35.3 ppt']
] as const) {
	test(`a gravity of 1.025 at ${pair} is ${ppt}`, async ({ page }) => {
		const salinity = page.getByRole('region', { name: 'Salinity from a specific gravity' });
		await salinity.getByLabel('Specific gravity').fill('1.025');
		await salinity.getByLabel('Reference pair').fill(pair);
		await expect(salinity.locator('.answer')).toContainText(ppt);
	});
}

test('says at the field what it expected, and gives no answer', async ({ page }) => {
	const density = page.getByRole('region', { name: 'Density', exact: true });
	await density.getByLabel('Salinity').fill('35 ppt');
	await density.getByLabel('Temperature').fill('60 C');
	await expect(density.getByLabel('Temperature')).toHaveAttribute('aria-invalid', 'true');
	await expect(density.getByLabel('Temperature')).toHaveAccessibleDescription(
		'Expected temperature from -2 to 40 °C.'
	);
	await expect(density).toContainText('No answer while a field cannot be read.');
});

test('shows what a gravity may mean wherever one is typed', async ({ page }) => {
	const oxygen = page.getByRole('region', { name: 'Oxygen at saturation' });
	await oxygen.getByLabel('Salinity').fill('1.025');
	const trap = oxygen.getByRole('note');
	for (const meaning of ['60F/60F 32.6 ppt', '25C/25C 33.2 ppt', '20C/4C 35.3 ppt']) {
		await expect(trap).toContainText(meaning);
	}
	await oxygen.getByLabel('Salinity').fill('34 ppt');
	await expect(trap).toHaveCount(0);
});

test('switches every answer and example between metric and US units, and remembers', async ({ page }) => {
	const box = page.getByRole('region', { name: 'Volume of a box' });
	await box.getByLabel('Length').fill('60 cm');
	await box.getByLabel('Width').fill('30 cm');
	await box.getByLabel('Water depth').fill('35 cm');
	await expect(box).toContainText('63.0 L');
	await page.getByLabel('Units').selectOption('US units');
	await expect(box).toContainText('16.6 gal');
	await expect(box.getByLabel('Length')).toHaveValue('60 cm');
	await expect(
		page.getByRole('region', { name: 'Two waters mixed' }).getByLabel('First volume')
	).toHaveAttribute('placeholder', '30 gal');
	await page.reload();
	await expect(page.getByLabel('Units')).toHaveValue('us');
});

for (const [name, width, scheme] of [
	['a desk in daylight', 1440, 'light'],
	['a phone in a dark room', 390, 'dark']
] as const) {
	test(`holds WCAG A and AA and its width on ${name}`, async ({ page }) => {
		await page.setViewportSize({ width, height: 844 });
		await page.emulateMedia({ colorScheme: scheme });
		await page.getByRole('region', { name: 'Dose' }).getByRole('button').click();
		await page.getByRole('region', { name: 'Oxygen at saturation' }).getByLabel('Salinity').fill('1.025');
		const { violations } = await new AxeBuilder({ page })
			.withTags(['wcag2a', 'wcag2aa', 'wcag21aa'])
			.analyze();
		expect(violations.map(({ id, nodes }) => [id, nodes.length])).toEqual([]);
		expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
	});
}
