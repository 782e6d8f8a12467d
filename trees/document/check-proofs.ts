import { bandsOf } from './band.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** Readings below these cannot be: a resistance, frequency or time is never negative, nothing is colder than 0 K. */
const LEAST_READING: Readonly<Record<string, number>> = { ohm: 0, Hz: 0, s: 0, degC: -273.15 };

/** Findings whose repair is not proved, or cannot be. */
export function warnOfProofs(tree: Tree): readonly Problem[] {
  return Object.entries(tree.findings).flatMap(([id, { prove }]) => {
    const missing = warningAt(
      ['findings', id, 'prove'],
      'missing-proof',
      `Nothing proves that the remedy for ${quote(id)} has mended the unit.`,
      'Name the complaint’s own test in “prove”, and those the work could have broken.',
      [['findings', id, 'prove']],
    );
    return [
      ...(prove.length === 0 ? [missing] : []),
      ...prove.flatMap((test, place) => unprovable(tree, test, ['findings', id, 'prove', place])),
    ];
  });
}

function unprovable(tree: Tree, testId: string, at: readonly PropertyKey[]): readonly Problem[] {
  const test = Object.hasOwn(tree.tests, testId) ? tree.tests[testId] : undefined;
  const sound = Object.keys(test?.results ?? {})[0];
  const band = test === undefined ? undefined : bandsOf(test).find(({ result }) => result === sound);
  if (band === undefined || band.of !== undefined) return [];
  if (band.to > (LEAST_READING[test?.reading?.unit ?? ''] ?? -Infinity)) return [];
  const message = `The proof ${quote(testId)} must give its first result, and no reading can be in that band.`;
  return [
    warningAt(at, 'proof-unreachable', message, 'Put the result of a sound unit first, and mend its band.', [
      ['tests', testId, 'results'],
      ['tests', testId, 'reading'],
    ]),
  ];
}
