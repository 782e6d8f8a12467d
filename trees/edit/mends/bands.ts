import { bandsOf, quote, type ResultBand } from '../../document/index.ts';
import { liveTree } from '../live-tree.ts';
import type { Change } from '../change.ts';
import type { MendAt } from './mend-of.ts';

/**
 * Joins the bands of a test into one line: the lowest open downwards, the topmost upwards, and at each joint the limit kept that
 * the sound result has, or the only one that there is. Null where two faulty results' limits differ, as either could be meant.
 */
export const mendBands: MendAt = (document, [tests = '', id = '']) => {
  const test = liveTree(document).tree.tests[String(id)];
  if (test === undefined) return null;
  const bands = bandsOf(test);
  const [sound = ''] = Object.keys(test.results);
  const joints = bands.slice(1).map((upper, place) => jointOf(bands[place], upper, sound));
  const joined = bands.map(({ result }, place) => ({
    result,
    from: place === 0 ? -Infinity : joints[place - 1],
    to: place === bands.length - 1 ? Infinity : joints[place],
  }));
  const limits = joined.flatMap(({ result, from, to }) =>
    typeof from === 'number' && typeof to === 'number' && from < to ? [{ result, from, to }] : [],
  );
  if (limits.length < bands.length) return null;
  const changes = limits.flatMap(({ result, from, to }, place) => {
    const path = [tests, id, 'results', result, 'band'];
    return [
      ...limitChange([...path, 'from'], bands[place]?.from, from),
      ...limitChange([...path, 'to'], bands[place]?.to, to),
    ];
  });
  if (changes.length === 0) return null;
  return { what: `Join the bands of ${quote(test.title)} at the limits there are`, changes };
};

function jointOf(lower: ResultBand | undefined, upper: ResultBand, sound: string): number | null {
  const [below, above] = [lower?.to ?? Infinity, upper.from];
  if (below === above || above === -Infinity) return finite(below);
  if (below === Infinity || upper.result === sound) return finite(above);
  return lower?.result === sound ? below : null;
}

function finite(limit: number): number | null {
  return Number.isFinite(limit) ? limit : null;
}

function limitChange(path: Change['path'], former: number | undefined, limit: number): readonly Change[] {
  if (former === limit) return [];
  return Number.isFinite(limit) ? [{ do: 'set', path, value: limit }] : [{ do: 'remove', path }];
}
