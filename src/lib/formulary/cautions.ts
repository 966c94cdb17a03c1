/** The one home of the sentences that warn people. A medicine's row names them; every task shows them. */
export const cautions = {
	poison: 'Toxic if swallowed. Keep it locked away from children, animals and food.',
	eyesAndSkin: 'Harms eyes and skin. Wear gloves and eye protection; rinse a splash with plenty of water.',
	corrosive: 'Burns skin and eyes. Wear gloves and goggles; rinse a splash for minutes and see a doctor.',
	fumes: 'Gives off harmful fumes. Open a window, keep the bottle shut and do not lean over the water.',
	dust: 'Do not breathe the powder. Weigh it without a draught and wear a mask.',
	carcinogen:
		'Causes or may cause cancer. Wear gloves, air the room and leave the work to someone else when pregnant.',
	allergy: 'Can cause allergy. Avoid every contact once you have reacted to it.',
	permanganate: 'Explodes with potassium permanganate. Never store or use the two together.',
	oxidiser: 'Strong oxidiser. Keep it away from metals, fuels and other chemicals.',
	stains: 'Stains skin, clothes, silicone and tools for good.',
	heart: 'Dangerous to people in small amounts: a swallowed dose can stop the heart.',
	resistance: 'An antibiotic used without need breeds resistant germs. Finish the course a veterinarian set.',
	invertebrates: 'Kills or harms invertebrates. Never dose a display, and keep tools and water apart.',
	food: 'Never give it to fish that people or animals will eat.',
	electricity:
		'Water and electricity: dry hands, a drip loop, a residual-current breaker; unplug before reaching in.',
	label: 'The label of your bottle, a veterinarian and local law come before anything said here.'
} as const;
export type Hazard = keyof typeof cautions;

/** Sentences for these hazards, always closed by the one on labels, veterinarians and law. */
export const cautionsFor = (...hazards: readonly Hazard[]): readonly string[] => [
	...hazards.map((hazard) => cautions[hazard]),
	cautions.label
];
