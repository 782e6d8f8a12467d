import type { JobEvent } from '../../../trees/chart/index.ts';
import type { StoredEvent } from '../../../main/contract/index.ts';

/** A job's events as they count now, and those taken back that could be done again (the last taken back first). */
export interface Trail {
  readonly kept: readonly StoredEvent[];
  readonly again: readonly JobEvent[];
}

/**
 * Folds a job's events. A take-back moves the last event that still counts to `again`; the same event sent again comes
 * back from there; any other event clears `again`, as what follows it would no longer fit.
 */
export function trailOf(events: readonly StoredEvent[]): Trail {
  const kept: StoredEvent[] = [];
  let again: JobEvent[] = [];
  for (const stored of events) {
    if (stored.event.kind === 'take-back') {
      const taken = kept.pop();
      if (taken !== undefined) again.unshift(taken.event);
      continue;
    }
    kept.push(stored);
    again = same(again[0], stored.event) ? again.slice(1) : [];
  }
  return { kept, again };
}

function same(a: JobEvent | undefined, b: JobEvent): boolean {
  return a !== undefined && JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

/** Key order differs between what was sent and what the records give back. */
function sorted(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  return Object.entries(value)
    .filter(([, held]) => held !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, held]) => [key, sorted(held)]);
}
