import fc from 'fast-check';
import { applyChanges, type Change, type DraftDocument, type Json } from '../../trees/edit/index.ts';

/** Draws changes that can be made to a document one after another: entries set, put in, taken out and moved at any depth. */
export function drawChanges(document: DraftDocument, seeds: readonly number[]): readonly Change[] {
  const changes: Change[] = [];
  let current = document;
  for (const seed of seeds) {
    const change = drawChange(current, seed);
    if (change === null) continue;
    const applied = applyChanges(current, [change]);
    if (!applied.ok) throw new Error(`A drawn change could not be made: ${applied.message}`);
    changes.push(change);
    current = applied.document;
  }
  return changes;
}

/** Seeds for {@link drawChanges}: one for each change. */
export const seeds = (most: number) => fc.array(fc.nat(0x7fffffff), { maxLength: most });

function drawChange(document: DraftDocument, seed: number): Change | null {
  let rest = seed;
  const draw = (below: number): number => {
    const drawn = rest % below;
    rest = Math.floor(rest / below);
    return drawn;
  };
  const path: (string | number)[] = [];
  let holder: Json = document;
  for (;;) {
    const keys: readonly (string | number)[] = Array.isArray(holder)
      ? [...holder.keys()]
      : Object.keys(holder as object);
    const key = keys[draw(Math.max(1, keys.length))];
    if (key === undefined) {
      if (path.length === 0) return null;
      const at = Array.isArray(holder) ? 0 : `new-${String(draw(1000))}`;
      return { do: 'insert', path: [...path, at], at: 0, value: seed };
    }
    const inner: Json = (holder as Readonly<Record<string | number, Json>>)[key] ?? null;
    if (typeof inner === 'object' && inner !== null && draw(4) > 0) {
      path.push(key);
      holder = inner;
      continue;
    }
    const at = draw(keys.length);
    switch (draw(4)) {
      case 0:
        return { do: 'set', path: [...path, key], value: { seed } };
      case 1:
        return { do: 'remove', path: [...path, key] };
      case 2:
        return { do: 'move', path: [...path, key], at };
      default: {
        if (Array.isArray(holder)) return { do: 'insert', path: [...path, at], at, value: seed };
        const name = `new-${String(seed)}`;
        return keys.includes(name) ? null : { do: 'insert', path: [...path, name], at, value: [seed] };
      }
    }
  }
}
