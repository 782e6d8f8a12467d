import { defaultAccuracy, parseReading, type Accuracy } from '../../trees/belief/index.ts';
import type { Reading } from '../../trees/chart/index.ts';
import { referenceOf, resultOf, type Instrument, type Test, type Tree } from '../../trees/document/index.ts';
import { value, wrongUse, type Or } from './outcome.ts';

/** A test said to have been made: the result it gave, and the reading where one was given. */
export interface Given {
  readonly test: string;
  readonly result: string;
  readonly reading?: Reading;
  /** The earlier reading's value that this test's ratio bands are taken against. */
  readonly reference?: number;
}

/** Accuracy of the instrument that tests of this kind are made with. */
export type Accuracies = (instrument: Instrument) => Accuracy;

/**
 * Reads `TEST=RESULT` and `TEST=READING`, in any order: a ratio to an earlier reading may name it before or after.
 * A word that is one of the test's results is the result; anything else is read as a meter shows it.
 */
export function readGiven(
  tree: Tree,
  written: readonly string[],
  accuracies: Accuracies = defaultAccuracy,
): Or<readonly Given[]> {
  const split = new Map<string, string>();
  for (const one of written) {
    const at = one.indexOf('=');
    const test = one.slice(0, Math.max(at, 0));
    if (at < 1)
      return wrongUse(
        `--given ${one} is not understood.`,
        'Write --given TEST=RESULT or --given TEST=READING.',
      );
    if (tree.tests[test] === undefined) {
      return wrongUse(
        `--given ${one}: the tree has no test "${test}".`,
        `Its tests are: ${Object.keys(tree.tests).join(', ')}.`,
      );
    }
    if (split.has(test)) return wrongUse(`--given names the test "${test}" twice.`, 'Give each test once.');
    split.set(test, one.slice(at + 1));
  }
  return readAll(tree, split, accuracies);
}

function readAll(
  tree: Tree,
  split: ReadonlyMap<string, string>,
  accuracies: Accuracies,
): Or<readonly Given[]> {
  const given = new Map<string, Given>();
  const readOne = (id: string): Or<Given> => {
    const before = given.get(id);
    if (before !== undefined) return value(before);
    const test = tree.tests[id];
    const written = split.get(id);
    if (test === undefined || written === undefined)
      return wrongUse(`The test "${id}" was not given.`, `Add --given ${id}=READING.`);
    const reference = referenceFor(test, id, written, readOne);
    if (!reference.ok) return reference;
    const read = readAnswer(test, id, written, reference.value, accuracies);
    if (read.ok) given.set(id, read.value);
    return read;
  };
  for (const id of split.keys()) {
    const read = readOne(id);
    if (!read.ok) return read;
  }
  return value([...given.values()]);
}

/** The value that a ratio test's bands are taken against; undefined where the bands are plain or a result was given. */
function referenceFor(
  test: Test,
  id: string,
  written: string,
  read: (of: string) => Or<Given>,
): Or<number | undefined> {
  const of = referenceOf(test);
  if (of === undefined || Object.hasOwn(test.results, written)) return value(undefined);
  const earlier = read(of);
  if (!earlier.ok) return earlier;
  const found = earlier.value.reading?.value;
  if (typeof found === 'number') return value(found);
  return wrongUse(
    `--given ${id}=${written} is a ratio to the reading of "${of}", which has none.`,
    `Give "${of}" as a reading, or "${id}" as a result.`,
  );
}

function readAnswer(
  test: Test,
  id: string,
  written: string,
  reference: number | undefined,
  accuracies: Accuracies,
): Or<Given> {
  if (Object.hasOwn(test.results, written)) return value({ test: id, result: written });
  const results = Object.keys(test.results).join(', ');
  if (test.reading === undefined) {
    return wrongUse(
      `--given ${id}=${written}: the test "${id}" has no result "${written}".`,
      `Its results are: ${results}.`,
    );
  }
  const parsed = parseReading(written, test.reading.unit);
  if (!parsed.ok) {
    return wrongUse(
      `--given ${id}=${written}: ${parsed.problem.message}`,
      `${parsed.problem.help} Or one of its results: ${results}.`,
    );
  }
  const held = resultOf(test, parsed.value, reference);
  if (!held.ok)
    return wrongUse(
      `--given ${id}=${written}: ${held.message}`,
      `Give one of its results instead: ${results}.`,
    );
  const reading: Reading = {
    value: parsed.value,
    typed: written.slice(0, 40),
    accuracy: accuracies(test.instrument),
  };
  return value({ test: id, result: held.result, reading, ...(reference === undefined ? {} : { reference }) });
}
