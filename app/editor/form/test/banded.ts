import { own, type Test } from '../../../../trees/document/index.ts';
import {
  at,
  keysAt,
  put,
  putOrDrop,
  type Change,
  type DraftDocument,
  type Json,
} from '../../../../trees/edit/index.ts';

/**
 * The changes that give a test these results: band by band and title by title where they are the same ones in the same order,
 * else all of them at once. `shown` is what they were made from, where `…` stands for a title that is still blank.
 */
export function changesToResults(
  document: DraftDocument,
  test: string,
  shown: Test['results'],
  results: Test['results'],
): readonly Change[] {
  const path = ['tests', test, 'results'];
  const titleOf = (result: string): Json => {
    const title = own(results, result)?.title ?? '';
    const written = at(document, [...path, result, 'title']);
    return title === own(shown, result)?.title && written !== undefined ? written : title;
  };
  const ids = Object.keys(results);
  const former = keysAt(document, path);
  if (ids.length !== former.length || ids.some((id, index) => id !== former[index])) {
    const value = ids.map((id) => [id, { title: titleOf(id), ...bandOf(own(results, id)) }]);
    return [{ do: 'set', path, value: Object.fromEntries(value) }];
  }
  return ids.flatMap((id) => {
    const { band } = bandOf(own(results, id));
    const isSame = JSON.stringify(band) === JSON.stringify(at(document, [...path, id, 'band']));
    return [
      ...put(document, [...path, id, 'title'], titleOf(id)),
      ...(isSame ? [] : putOrDrop(document, [...path, id, 'band'], band)),
    ];
  });
}

/** A result’s band with nothing in it but what is said. */
function bandOf(result: Test['results'][string] | undefined): { readonly band?: Json } {
  if (result?.band === undefined) return {};
  const { from, to, of } = result.band;
  return {
    band: {
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      ...(of !== undefined && { of }),
    },
  };
}
