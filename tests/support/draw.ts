import fc from 'fast-check';

/** Draws one value of an arbitrary after another; fast-check can shrink what was drawn. */
export type Draw = fc.GeneratorValue;

/** A field that is there half of the time. */
export function optional<K extends string, V>(draw: Draw, key: K, value: () => V): Partial<Record<K, V>> {
  return draw(fc.boolean) ? ({ [key]: value() } as Record<K, V>) : {};
}

/** Ids of one kind; sometimes the last is a word that a careless lookup finds in every object. */
export function ids(draw: Draw, kind: string, min: number, max: number): string[] {
  const count = draw(fc.integer, { min, max });
  const awkward = draw(fc.boolean);
  return Array.from({ length: count }, (_, place) =>
    awkward && place === count - 1 ? 'constructor' : `${kind}-${String(place)}`,
  );
}

/** One of a list. */
export function pick<T>(draw: Draw, from: readonly T[]): T {
  return draw(fc.constantFrom<T[]>, ...from);
}

/** Some of a list, in its order: at least `least` and at most `most` of them, as far as there are so many. */
export function some<T>(draw: Draw, from: readonly T[], least = 0, most = Infinity): T[] {
  return draw(fc.subarray<T>, [...from], { minLength: least, maxLength: Math.min(most, from.length) });
}

export function drawMinutes(draw: Draw): number {
  return draw(fc.nat, { max: 400 }) / 10;
}

/** A text, some with signs that are easily lost or taken for markup. */
export function drawText(draw: Draw): string {
  return pick(draw, ['Plain words', 'Größe „µΩ“', '<b>&amp;"', 'x']);
}
