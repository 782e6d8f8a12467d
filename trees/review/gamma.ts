/** Draws a number: a uniform one in [0, 1), unless said otherwise. */
export type Draw = () => number;

/** Standard normal variates by the polar method (Marsaglia & Bray 1964, SIAM Review 6:260-264). */
export function normalDraws(random: Draw): Draw {
  let [spare, isSpare] = [0, false];
  return () => {
    if (isSpare) {
      isSpare = false;
      return spare;
    }
    for (;;) {
      const u = 2 * random() - 1;
      const v = 2 * random() - 1;
      const square = u * u + v * v;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = v * scale;
      isSpare = true;
      return u * scale;
    }
  };
}

/**
 * Gamma variates of a shape and scale 1, by squeeze and rejection (Marsaglia & Tsang 2000, ACM Trans. Math. Softw. 26:363-372),
 * for shapes below 1 by that of shape + 1 times U^(1/shape) (section 6 there). Of shape 0 always 0.
 */
export function gammaDraws(random: Draw): (shape: number) => number {
  const normal = normalDraws(random);
  return (shape) => {
    if (shape <= 0) return 0;
    if (shape < 1) return fromOne(shape + 1, random, normal) * (1 - random()) ** (1 / shape);
    return fromOne(shape, random, normal);
  };
}

function fromOne(shape: number, random: Draw, normal: Draw): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const u = 1 - random();
    if (u < 1 - 0.0331 * x * x * x * x) return d * v;
    if (Math.log(u) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
  }
}
