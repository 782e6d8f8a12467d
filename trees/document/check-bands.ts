import { bandsOf, type ResultBand } from './band.ts';
import { loopsOf } from './loop.ts';
import { ENTRIES, errorAt, quote, type Problem } from './problem.ts';
import type { Test, Tree } from './tree.ts';

/** Tests whose results cannot take every reading to exactly one of them. */
export function checkBands(tree: Tree): readonly Problem[] {
  return [
    ...Object.entries(tree.tests).flatMap(([id, test]) => [
      ...fewResults(id, test),
      ...(test.reading === undefined ? bandsWithoutReading(id, test) : readingProblems(tree, id, test)),
    ]),
    ...referenceLoops(tree),
  ];
}

function fewResults(id: string, test: Test): readonly Problem[] {
  if (Object.keys(test.results).length >= 2) return [];
  const message = `The test ${quote(id)} has fewer than two results, so it tells nothing.`;
  return [
    errorAt(
      ['tests', id, 'results'],
      'few-results',
      message,
      'Add the results it can have; the first is a sound unit’s.',
      [['tests', id, 'results', ENTRIES]],
    ),
  ];
}

function bandsWithoutReading(id: string, test: Test): readonly Problem[] {
  return bandsOf(test).map(({ result }) => {
    const message = `The result ${quote(result)} has a band, but the test has no reading.`;
    return errorAt(
      ['tests', id, 'results', result, 'band'],
      'band-without-reading',
      message,
      'Give the test “reading” with its unit, or take the band out.',
      [['tests', id, 'reading']],
    );
  });
}

function readingProblems(tree: Tree, id: string, test: Test): readonly Problem[] {
  const bands = bandsOf(test);
  const missing = Object.entries(test.results).filter(([, { band }]) => band === undefined);
  if (missing.length > 0) {
    return missing.map(([result]) => {
      const message = `The result ${quote(result)} of a measured test has no band.`;
      return errorAt(
        ['tests', id, 'results', result],
        'missing-band',
        message,
        'Give it “band” with from, to or both.',
        [['tests', id, 'results', result, 'band']],
      );
    });
  }
  const empty = bands.filter(({ from, to }) => !(from < to));
  return [
    ...empty.map(({ result, from, to }) => {
      const message = `The band of ${quote(result)} is empty: from ${String(from)} is not below to ${String(to)}.`;
      return errorAt(
        ['tests', id, 'results', result, 'band'],
        'band-empty',
        message,
        'Put the lower limit in “from”.',
      );
    }),
    ...referenceProblems(tree, id, bands),
    ...(empty.length > 0 ? [] : coverProblems(id, bands)),
  ];
}

function referenceProblems(tree: Tree, id: string, bands: readonly ResultBand[]): readonly Problem[] {
  const references = new Set(bands.map(({ of }) => of));
  if (references.size > 1) {
    const help = 'Let every band be of the same earlier test, or none.';
    return [
      errorAt(
        ['tests', id, 'results'],
        'band-mixed',
        'These bands do not all refer to the same reading.',
        help,
        [['tests', id, 'results']],
      ),
    ];
  }
  return [...references].flatMap((of) => {
    const reference = of !== undefined && Object.hasOwn(tree.tests, of) ? tree.tests[of] : undefined;
    if (of === id || reference === undefined || reference.reading !== undefined) return [];
    const message = `The bands are ratios to ${quote(of ?? '')}, which has no reading.`;
    const restsOn = of === undefined ? [] : [['tests', of, 'reading']];
    return [
      errorAt(['tests', id, 'results'], 'band-of-chosen', message, 'Refer to a measured test.', restsOn),
    ];
  });
}

/** Half-open bands cover the line once when each ends where the next begins and the outermost are open. */
function coverProblems(id: string, bands: readonly ResultBand[]): readonly Problem[] {
  const first = bands[0];
  const ends = [...bands.slice(1).map(({ from }) => from), Infinity];
  const below =
    first !== undefined && first.from !== -Infinity
      ? [gap(id, first.result, `below ${String(first.from)}`)]
      : [];
  let reached = -Infinity;
  const between = bands.flatMap(({ result, to }, index) => {
    reached = Math.max(reached, to);
    const next = ends[index] ?? Infinity;
    if (reached < next) {
      return [
        gap(
          id,
          result,
          next === Infinity ? `from ${String(reached)} on` : `from ${String(reached)} to ${String(next)}`,
        ),
      ];
    }
    const following = bands[index + 1];
    return following !== undefined && reached > next ? [overlap(id, following.result, result)] : [];
  });
  return [...below, ...between];
}

function gap(id: string, result: string, stretch: string): Problem {
  const message = `No band of ${quote(id)} holds a reading ${stretch}.`;
  return errorAt(
    ['tests', id, 'results', result, 'band'],
    'band-gap',
    message,
    'Let each band begin where the one below ends, the lowest without “from”, the topmost without “to”.',
    [['tests', id, 'results']],
  );
}

function overlap(id: string, result: string, other: string): Problem {
  const message = `The bands of ${quote(result)} and ${quote(other)} overlap.`;
  return errorAt(
    ['tests', id, 'results', result, 'band'],
    'band-overlap',
    message,
    'Let each band begin where the one below ends.',
    [['tests', id, 'results']],
  );
}

/** A ratio needs its reference measured first, which a test that refers to itself by any way round never can be. */
function referenceLoops(tree: Tree): readonly Problem[] {
  const ids = Object.keys(tree.tests);
  const indices = new Map(ids.map((id, index) => [id, index]));
  const onward = Object.values(tree.tests).map((test) => {
    const references = new Set(bandsOf(test).map(({ of }) => indices.get(of ?? '')));
    return [...references].filter((index) => index !== undefined);
  });
  return loopsOf(onward).map((round) => {
    const names = [...round, ...round.slice(0, 1)].map((index) => ids[index] ?? '');
    const message = `The bands refer to each other’s readings in a loop: ${names.join(' → ')}.`;
    return errorAt(
      ['tests', names[0] ?? '', 'results'],
      'band-loop',
      message,
      'Give one of these tests limits of its own.',
    );
  });
}
