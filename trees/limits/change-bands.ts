import type { Band } from '../document/index.ts';
import type { Gap, Limit, Overlap, Results } from './layout.ts';

/** A test's results with a limit at another place: all bands that end or begin there move together. */
export function setLimit(results: Results, { ends, starts }: Limit, to: number): Results {
  return withBands(results, (result, band) => {
    const ended = ends.includes(result) ? withEnd(band, 'to', to) : band;
    return starts.includes(result) ? withEnd(ended, 'from', to) : ended;
  });
}

/** One end of one band set, or opened (undefined). A result without a band gets one. */
export function setEnd(
  results: Results,
  result: string,
  end: 'from' | 'to',
  at: number | undefined,
): Results {
  const of = Object.values(results).find(({ band }) => band?.of !== undefined)?.band?.of;
  const fresh: Band = of === undefined ? {} : { of };
  return changed(results, result, (entry) => ({ ...entry, band: withEnd(entry.band ?? fresh, end, at) }));
}

/** A new result that takes part of another's band, after it in order. */
export interface Split {
  readonly result: string;
  readonly at: number;
  readonly id: string;
  readonly title: string;
  /** Which part the new result takes. */
  readonly part: 'below' | 'above';
}

/** Splits a result's band in two. The place must lie within the band. */
export function splitBand(results: Results, { result, at, id, title, part }: Split): Results {
  return Object.fromEntries(
    Object.entries(results).flatMap(([key, entry]) => {
      if (key !== result) return [[key, entry]];
      const band = entry.band ?? {};
      const [kept, taken] = part === 'above' ? (['to', 'from'] as const) : (['from', 'to'] as const);
      return [
        [key, { ...entry, band: withEnd(band, kept, at) }],
        [id, { title, band: withEnd(band, taken, at) }],
      ];
    }),
  );
}

/** Takes a result out; its band, if it had one, is left to nobody. */
export function withoutResult(results: Results, gone: string): Results {
  return Object.fromEntries(Object.entries(results).filter(([key]) => key !== gone));
}

/** Gives a gap to the band below or above it; results as they were where there is none on that side. */
export function closeGap(results: Results, gap: Gap, by: 'below' | 'above'): Results {
  const taker = gap[by];
  if (taker === null) return results;
  return by === 'below' ? setEnd(results, taker, 'to', gap.to) : setEnd(results, taker, 'from', gap.from);
}

/** Leaves an overlap to one of its two bands; the other gives way. */
export function endOverlap(results: Results, overlap: Overlap, keeper: 'below' | 'above'): Results {
  return keeper === 'below'
    ? setEnd(results, overlap.above, 'from', overlap.to)
    : setEnd(results, overlap.below, 'to', overlap.from);
}

/** Makes every band a ratio to another test's earlier reading, or a plain value (undefined). The figures stay. */
export function setReference(results: Results, of: string | undefined): Results {
  return withBands(results, (_, band) => {
    if (of !== undefined) return { ...band, of };
    return withoutKey(band, 'of');
  });
}

function withBands(results: Results, change: (result: string, band: Band) => Band): Results {
  return Object.fromEntries(
    Object.entries(results).map(([key, entry]) => {
      if (entry.band === undefined) return [key, entry];
      const band = change(key, entry.band);
      return [key, band === entry.band ? entry : { ...entry, band }];
    }),
  );
}

function changed(
  results: Results,
  result: string,
  change: (entry: Results[string]) => Results[string],
): Results {
  return Object.fromEntries(
    Object.entries(results).map(([key, entry]) => [key, key === result ? change(entry) : entry]),
  );
}

/** The band with one end set, its keys in the order they had; an infinite or absent end leaves the key out. */
function withEnd(band: Band, end: 'from' | 'to', at: number | undefined): Band {
  if (at !== undefined && Number.isFinite(at))
    return end in band ? { ...band, [end]: at } : placed(band, end, at);
  return withoutKey(band, end);
}

function withoutKey(band: Band, gone: keyof Band): Band {
  return Object.fromEntries(Object.entries(band).filter(([key]) => key !== gone));
}

/** A new `from` goes before the band's `to`, as one writes it. */
function placed(band: Band, end: 'from' | 'to', at: number): Band {
  if (end === 'to' || band.to === undefined) return { ...band, [end]: at };
  const { to, ...rest } = band;
  return { ...rest, from: at, to };
}
