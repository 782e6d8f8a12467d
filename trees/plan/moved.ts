import type { Item } from './evaluate-tally.ts';
import type { Evaluation } from './evaluate.ts';

/** One thing that two paths do more or less of. */
export interface Move {
  readonly kind: Item['kind'];
  /** The test, changeover, or finding; `pass-on`. */
  readonly id: string;
  /** Expected minutes that it takes less than before; negative where it takes more. */
  readonly saves: number;
  /** Expected times it is done, before and after. */
  readonly made: readonly [before: number, after: number];
  /** For tests: the mean place among the tests made, the first being 1; null where it is not made. */
  readonly place: readonly [before: number | null, after: number | null];
}

const SAME = 1e-9;

/** What two evaluated paths do otherwise, the most minutes saved first; the savings add up to the difference of the two. */
export function movesOf(before: Evaluation, after: Evaluation): readonly Move[] {
  const items = new Map<string, { before?: Item; after?: Item }>();
  for (const item of before.byItem) items.set(`${item.kind}:${item.id}`, { before: item });
  for (const item of after.byItem) {
    const name = `${item.kind}:${item.id}`;
    items.set(name, { ...items.get(name), after: item });
  }
  return [...items.values()].flatMap((pair) => moveOf(pair) ?? []).sort((a, b) => b.saves - a.saves);
}

function moveOf({ before, after }: { before?: Item; after?: Item }): Move | null {
  const item = after ?? before;
  if (item === undefined) return null;
  const saves = (before?.minutes ?? 0) - (after?.minutes ?? 0);
  const made = [before?.made ?? 0, after?.made ?? 0] as const;
  const place = [before?.place ?? null, after?.place ?? null] as const;
  const moved = Math.abs((place[0] ?? 0) - (place[1] ?? 0));
  if (Math.abs(saves) < SAME && Math.abs(made[0] - made[1]) < SAME && moved < SAME) return null;
  return { kind: item.kind, id: item.id, saves, made, place };
}
