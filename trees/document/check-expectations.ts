import type { Course } from './course.ts';
import { expectationOf } from './expectation.ts';
import { arrivals, passingTo } from './flow.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** A test and where its results are in {@link Course.slots}' numbering. */
interface Range {
  readonly test: string;
  readonly start: number;
  readonly end: number;
}

/** What a finding is expected to make the tests give: a(r|f,t) by slot, and by test whether anything is known of it. */
interface Known {
  readonly shares: Float64Array;
  readonly isKnown: Uint8Array;
}

/**
 * Findings that no test tells apart, and results that no finding expects. For trees without errors; `reached` are
 * the findings that some path leads to. Takes one finding at a time, as the table of all of them can be very large.
 */
export function warnOfExpectations(
  tree: Tree,
  course: Course,
  reached: ReadonlySet<string>,
): readonly Problem[] {
  const ranges = [...course.slots].map(([test, { start, end }]): Range => ({ test, start, end }));
  const { through } = arrivals(course, Object.keys(tree.symptoms));
  const knownBy = (finding: string): Known =>
    knownOf(tree, ranges, finding, passingTo(course, through, finding));
  const expected = new Float64Array(ranges.at(-1)?.end ?? 0);
  const findingsKnown = new Int32Array(ranges.length);
  const suspects = new Map<number, string[]>();
  for (const finding of Object.keys(tree.findings)) {
    const known = knownBy(finding);
    known.shares.forEach((share, slot) => (expected[slot] = (expected[slot] ?? 0) + share));
    known.isKnown.forEach((is, place) => (findingsKnown[place] = (findingsKnown[place] ?? 0) + is));
    if (reached.has(finding)) append(suspects, signature(ranges, known), finding);
  }
  const alike = [...suspects.values()].flatMap((findings) =>
    findings.length < 2 ? [] : groupBy(findings, (finding) => likeness(ranges, knownBy(finding))),
  );
  return [...alike.flatMap(alikeProblem), ...unexpected(tree, ranges, expected, findingsKnown)];
}

/** Turns the flows that end in a finding into shares, in place, and puts what the finding expects over them. */
function knownOf(tree: Tree, ranges: readonly Range[], findingId: string, shares: Float64Array): Known {
  const finding = tree.findings[findingId];
  const isKnown = new Uint8Array(ranges.length);
  ranges.forEach(({ test: testId, start, end }, place) => {
    const test = tree.tests[testId];
    if (finding !== undefined && test !== undefined && Object.hasOwn(finding.expects, testId)) {
      shares.set(expectationOf(testId, test, finding, undefined).shares, start);
      isKnown[place] = 1;
      return;
    }
    let total = 0;
    for (let slot = start; slot < end; slot += 1) total += shares[slot] ?? 0;
    if (total === 0) return;
    for (let slot = start; slot < end; slot += 1) shares[slot] = (shares[slot] ?? 0) / total;
    isKnown[place] = 1;
  });
  return { shares, isKnown };
}

/**
 * The same number for findings that {@link likeness} finds alike, and hardly ever for others, at a fraction of its
 * cost.
 */
function signature(ranges: readonly Range[], known: Known): number {
  let hash = 0;
  ranges.forEach((range, place) => {
    if (saysNothing(known, range, place)) return;
    hash = Math.imul(hash ^ (place + 1), 0x9e3779b1);
    for (let slot = range.start; slot < range.end; slot += 1) {
      hash = Math.imul(hash ^ rounded(known.shares[slot]), 0x85ebca6b) ^ (hash >>> 15);
    }
  });
  return hash;
}

/** The same text for findings that expect the same of every test. */
function likeness(ranges: readonly Range[], known: Known): string {
  return ranges
    .flatMap((range, place) => {
      if (saysNothing(known, range, place)) return [];
      const shares = Array.from(known.shares.subarray(range.start, range.end), rounded);
      return [`${range.test}:${shares.join()}`];
    })
    .join(' ');
}

/** An even split is what is taken where nothing is known, so the two are the same. */
function saysNothing({ shares, isKnown }: Known, { start, end }: Range, place: number): boolean {
  if (isKnown[place] !== 1) return true;
  for (let slot = start + 1; slot < end; slot += 1) {
    if (rounded(shares[slot]) !== rounded(shares[start])) return false;
  }
  return true;
}

/** Shares are compared to nine places, since flows are sums. */
function rounded(share: number | undefined): number {
  return Math.round((share ?? 0) * 1e9);
}

function groupBy(ids: readonly string[], key: (id: string) => string): readonly (readonly string[])[] {
  const groups = new Map<string, string[]>();
  for (const id of ids) append(groups, key(id), id);
  return [...groups.values()];
}

function append<Key>(lists: Map<Key, string[]>, key: Key, id: string): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [id]);
  else list.push(id);
}

function alikeProblem(findings: readonly string[]): readonly Problem[] {
  if (findings.length < 2) return [];
  const names = `${findings.slice(0, 20).map(quote).join(', ')}${findings.length > 20 ? ' …' : ''}`;
  const help = 'Add a test that they give different results, or say in “expects” how they differ.';
  const message = `No test tells these findings apart: ${names}.`;
  return [warningAt(['findings', findings[0] ?? ''], 'findings-alike', message, help)];
}

function unexpected(
  tree: Tree,
  ranges: readonly Range[],
  expected: Float64Array,
  findingsKnown: Int32Array,
): readonly Problem[] {
  const findings = Object.keys(tree.findings).length;
  return ranges.flatMap(({ test, start }, place) => {
    // A finding of which nothing is known may give any result.
    if (findings === 0 || (findingsKnown[place] ?? 0) < findings) return [];
    return Object.keys(tree.tests[test]?.results ?? {})
      .filter((_, nth) => expected[start + nth] === 0)
      .map((result) => {
        const message = `No finding expects the result ${quote(result)} of ${quote(test)}.`;
        const help = 'Send its branch to a finding with some weight, or expect it of one.';
        return warningAt(['tests', test, 'results', result], 'result-unexpected', message, help);
      });
  });
}
