import { reviewFilterSchema } from '../../../main/contract/index.ts';
import { COMEBACK_WINDOW_DAYS, type ReviewFilter } from '../../../trees/review/index.ts';
import type { Query } from '../../shell/index.ts';

/** What an address asks for, and the names of what in it is no filter (a day that there is not, say), which is left out. */
export interface AskedFilter {
  readonly filter: ReviewFilter;
  readonly unsound: readonly (keyof ReviewFilter)[];
}

/** Reads the filters off an address. */
export function filterIn(query: Query): AskedFilter {
  const asked = {
    from: query['from'],
    to: query['to'],
    tree: query['tree'],
    board: query['board'],
    technician: query['by'],
    window: numberIn(query['window']),
  };
  const all = reviewFilterSchema.safeParse(asked);
  if (all.success) return { filter: all.data, unsound: [] };
  const unsound = new Set(all.error.issues.map(({ path: [name] }) => name));
  const sound = Object.entries(asked).filter(([name]) => !unsound.has(name));
  return {
    filter: reviewFilterSchema.parse(Object.fromEntries(sound)),
    unsound: NAMES.filter((name) => unsound.has(name)),
  };
}

const NAMES = ['from', 'to', 'tree', 'board', 'technician', 'window'] as const;

/** The filters as an address has them; what is not set does not stand in it. */
export function queryOfFilter(filter: ReviewFilter): Readonly<Record<string, string | null>> {
  return {
    from: filter.from,
    to: filter.to,
    tree: filter.tree,
    board: filter.board,
    by: filter.technician,
    window: filter.window === COMEBACK_WINDOW_DAYS ? null : String(filter.window),
  };
}

/** Something that is no number stays what it is, and is refused. */
function numberIn(text: string | undefined): unknown {
  return text !== undefined && /^\d+$/.test(text) ? Number(text) : text;
}
