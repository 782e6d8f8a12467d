import { referenceOf, type Finding, type Test, type Tree } from '../document/index.ts';

/**
 * Whether two trees of the same fault model's tables cost the same for certain: nothing differs that an evaluation goes by, as
 * where only texts do. Parts that the trees share by identity are not looked into.
 */
export function costTheSame(one: Tree, other: Tree): boolean {
  return (
    one.symptoms === other.symptoms &&
    areAlike(one.bench, other.bench, (bench) => bench) &&
    areAlike(one.interlocks, other.interlocks, (interlocks) =>
      interlocks.map(({ change, until }) => [change, until]),
    ) &&
    areAlike(one.defaults, other.defaults, (defaults) => defaults) &&
    everyAlike(one.tests, other.tests, testFigures) &&
    everyAlike(one.findings, other.findings, findingFigures)
  );
}

function testFigures(test: Test): unknown {
  return [Object.keys(test.results), test.needs, test.minutes, referenceOf(test)];
}

function findingFigures({ remedy, prove, otherwise }: Finding): unknown {
  const { needs, minutes, parts, disturbs } = remedy;
  return [needs, minutes, parts.map(({ price }) => price), disturbs, prove, otherwise];
}

/** Whether two records have the same ids, and parts of the same figures by them. Parts shared by identity are not looked into. */
export function everyAlike<Part extends object>(
  one: Readonly<Record<string, Part>>,
  other: Readonly<Record<string, Part>>,
  figures: (part: Part) => unknown,
): boolean {
  if (one === other) return true;
  const entries = Object.entries(one);
  return (
    Object.keys(other).length === entries.length &&
    entries.every(([id, part]) => {
      const now = other[id];
      return now !== undefined && areAlike(part, now, figures);
    })
  );
}

/** Whether two parts have the same figures, for certain where they are one. */
export function areAlike<Part extends object>(
  one: Part,
  other: Part,
  figures: (part: Part) => unknown,
): boolean {
  return one === other || JSON.stringify(figures(one)) === JSON.stringify(figures(other));
}
