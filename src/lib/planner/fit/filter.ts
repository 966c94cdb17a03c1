/** One value of the rate that is searched, with what the readings make of the rest if it holds. */
export interface Node {
	rate: number;
	/** minus twice the logarithm of its weight: misfit and distance from the prior */
	cost: number;
	/** mass in the tank, mg, and factor on the input; means and covariance */
	mass: number;
	factor: number;
	massVar: number;
	bothVar: number;
	factorVar: number;
}

/** A step of the water as seen by one node: mass = keep x mass + gain x factor, with the variances it adds. */
export interface Step {
	keep: number;
	gain: number;
	add: number;
	massVar: number;
	factorVar: number;
}

export interface Seen {
	level: number;
	volumeL: number;
	/** standard deviation of the kit at this level */
	noise(level: number): number;
}

/** So many standard deviations off, no kit explains a reading: something happened that nobody logged. */
const SHOCK_ABOVE = 2.5;
const SHOCK_BELOW = 3;

export function advance(nodes: Node[], step: (rate: number, node: Node) => Step): void {
	for (const node of nodes) {
		const { keep, gain, add, massVar, factorVar } = step(node.rate, node);
		const { massVar: mm, bothVar: mf, factorVar: ff } = node;
		node.mass = keep * node.mass + gain * node.factor + add;
		node.massVar = keep * keep * mm + 2 * keep * gain * mf + gain * gain * ff + massVar;
		node.bothVar = keep * mf + gain * ff;
		node.factorVar = ff + factorVar;
	}
}

/**
 * Weigh the nodes by a reading and correct each: the conjugate update of a normal prior by a normal observation.
 * The normalizing term is left out (a penalised least squares), so that readings which agree exactly with the
 * forecast leave every rate exactly where it was. A reading that no node explains replaces the mass and teaches
 * no rate. Gives back whether it taught.
 */
export function observe(nodes: Node[], { level, volumeL, noise }: Seen): boolean {
	const { mean, sd } = mixture(nodes, ({ mass, massVar }) => [mass / volumeL, massVar / volumeL ** 2]);
	const kit = noise(Math.max(mean, 0));
	const off = (level - mean) / Math.hypot(sd, kit);
	if (off > SHOCK_ABOVE || off < -SHOCK_BELOW) {
		const own = (noise(level) * volumeL) ** 2;
		for (const node of nodes) Object.assign(node, { mass: level * volumeL, massVar: own, bothVar: 0 });
		return false;
	}
	for (const node of nodes) {
		const innovation = level - node.mass / volumeL;
		const total = node.massVar / volumeL ** 2 + kit ** 2;
		const massGain = node.massVar / volumeL / total;
		const factorGain = node.bothVar / volumeL / total;
		node.cost += innovation ** 2 / total;
		node.mass += massGain * innovation;
		node.factor += factorGain * innovation;
		node.factorVar -= (factorGain * node.bothVar) / volumeL;
		node.bothVar -= (factorGain * node.massVar) / volumeL;
		node.massVar -= (massGain * node.massVar) / volumeL;
	}
	return true;
}

/** Posterior weight of each node, summing to one; nodes stand for the stretch of rates around them. */
export function weights(nodes: readonly Node[]): number[] {
	const least = Math.min(...nodes.map(({ cost }) => cost));
	const raw = nodes.map(({ cost }, i) => Math.exp((least - cost) / 2) * stretch(nodes, i));
	const sum = raw.reduce((total, weight) => total + weight, 0);
	return raw.map((weight) => weight / sum);
}

function stretch(nodes: readonly Node[], i: number): number {
	const rate = (j: number) => nodes[Math.min(Math.max(j, 0), nodes.length - 1)]?.rate ?? 0;
	return nodes.length === 1 ? 1 : (rate(i + 1) - rate(i - 1)) / 2;
}

/** Mean and spread over all nodes of something each of them knows by mean and variance. */
export function mixture(
	nodes: readonly Node[],
	of: (node: Node) => readonly [mean: number, variance: number]
): { mean: number; sd: number } {
	const share = weights(nodes);
	const parts = nodes.map(of);
	const mean = parts.reduce((sum, [m], i) => sum + m * (share[i] ?? 0), 0);
	const variance = parts.reduce(
		(sum, [m, v], i) => sum + ((m - mean) ** 2 + Math.max(v, 0)) * (share[i] ?? 0),
		0
	);
	return { mean, sd: Math.sqrt(variance) };
}

/** The node of the least cost, moved to the foot of the parabola through its neighbours; the first node stays itself. */
export function best(nodes: readonly Node[], mode: number): Node | null {
	let at = mode;
	nodes.forEach(({ cost }, i) => {
		if (cost < (nodes[at]?.cost ?? Infinity)) at = i;
	});
	const [left, here, right] = [nodes[at - 1], nodes[at], nodes[at + 1]];
	if (!here || !left || !right || at === mode) return here ?? null;
	const bend = left.cost - 2 * here.cost + right.cost;
	const by = bend > 0 ? (left.cost - right.cost) / (2 * bend) : 0;
	const next = by < 0 ? left : right;
	const mix = (key: keyof Node) => here[key] + (next[key] - here[key]) * Math.abs(by);
	return {
		rate: mix('rate'),
		cost: here.cost,
		mass: mix('mass'),
		factor: mix('factor'),
		massVar: mix('massVar'),
		bothVar: mix('bothVar'),
		factorVar: mix('factorVar')
	};
}

/** The rate below which a share of the weight lies, between nodes on a straight line. */
export function quantile(nodes: readonly Node[], share: number): number {
	const parts = weights(nodes);
	let below = 0;
	for (const [i, { rate }] of nodes.entries()) {
		const weight = parts[i] ?? 0;
		if (below + weight >= share) {
			const width = stretch(nodes, i);
			const edge = i === 0 ? rate : (rate + (nodes[i - 1]?.rate ?? rate)) / 2;
			return edge + (weight > 0 ? ((share - below) / weight) * width : 0);
		}
		below += weight;
	}
	return nodes.at(-1)?.rate ?? 0;
}
