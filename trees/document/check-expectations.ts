import type { Course } from './course.ts';
import { expectationOf } from './expectation.ts';
import { arrivals, passedTest, passingTo } from './flow.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** What a finding is known to expect of each test (a(r|f,t) by test id); tests of which nothing is known are left out. */
type Known = ReadonlyMap<string, readonly number[]>;

/**
 * Findings that no test tells apart, and results that no finding expects. For trees without errors; `reached` are
 * the findings that some path leads to. Takes one finding at a time, as the table of all of them can be very large.
 */
export function warnOfExpectations(
  tree: Tree,
  course: Course,
  reached: ReadonlySet<string>,
): readonly Problem[] {
  const { through } = arrivals(course, Object.keys(tree.symptoms));
  const knownBy = (finding: string): Known =>
    knownOf(tree, course, finding, passingTo(course, through, finding));
  const places = new Map(Object.keys(tree.tests).map((id, place) => [id, place]));
  const tally = new Map<string, Tally>();
  const suspects = new Map<number, string[]>();
  for (const finding of Object.keys(tree.findings)) {
    const known = knownBy(finding);
    for (const [test, shares] of known) addTo(tally, test, shares);
    if (reached.has(finding)) append(suspects, signature(known, places), finding);
  }
  const alike = [...suspects.values()].flatMap((findings) =>
    findings.length < 2 ? [] : [...groupBy(findings, (finding) => likeness(knownBy(finding)))],
  );
  return [...alike.flatMap(alikeProblem), ...unexpected(tree, tally)];
}

function knownOf(tree: Tree, course: Course, findingId: string, passing: Float64Array): Known {
  const finding = tree.findings[findingId];
  const known = new Map<string, readonly number[]>();
  for (const testId of course.slots.keys()) {
    const test = tree.tests[testId];
    if (finding === undefined || test === undefined) continue;
    const passed = passedTest(course, passing, testId);
    if (passed === undefined && !Object.hasOwn(finding.expects, testId)) continue;
    known.set(testId, expectationOf(testId, test, finding, passed).shares);
  }
  return known;
}

interface Tally {
  known: number;
  readonly shares: number[];
}

function addTo(tallies: Map<string, Tally>, test: string, shares: readonly number[]): void {
  const tally = tallies.get(test) ?? { known: 0, shares: shares.map(() => 0) };
  tallies.set(test, tally);
  tally.known += 1;
  shares.forEach((share, place) => {
    tally.shares[place] = (tally.shares[place] ?? 0) + share;
  });
}

/**
 * The same number for findings that {@link likeness} finds alike, and hardly ever for others, at a fraction of its
 * cost.
 */
function signature(known: Known, places: ReadonlyMap<string, number>): number {
  let sum = 0;
  for (const [test, shares] of known) {
    if (isEven(shares)) continue;
    let hash = Math.imul((places.get(test) ?? 0) + 1, 0x9e3779b1);
    for (const share of shares) hash = Math.imul(hash ^ rounded(share), 0x85ebca6b) ^ (hash >>> 15);
    sum = (sum + hash) | 0;
  }
  return sum;
}

/**
 * The same text for findings that expect the same of every test. Shares are compared to nine places, since flows are
 * sums; an even split is what is taken where nothing is known, so the two are the same.
 */
function likeness(known: Known): string {
  return [...known]
    .filter(([, shares]) => !isEven(shares))
    .map(([test, shares]) => `${test}:${shares.map(rounded).join()}`)
    .join(' ');
}

function isEven(shares: readonly number[]): boolean {
  return shares.every((share) => rounded(share) === rounded(shares[0] ?? 0));
}

function rounded(share: number): number {
  return Math.round(share * 1e9);
}

function groupBy(ids: readonly string[], key: (id: string) => string): Iterable<readonly string[]> {
  const groups = new Map<string, string[]>();
  for (const id of ids) append(groups, key(id), id);
  return groups.values();
}

function append<Key>(lists: Map<Key, string[]>, key: Key, id: string): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [id]);
  else list.push(id);
}

function alikeProblem(findings: readonly string[]): readonly Problem[] {
  if (findings.length < 2) return [];
  const message = `No test tells these findings apart: ${findings.slice(0, 20).map(quote).join(', ')}${findings.length > 20 ? ' …' : ''}.`;
  return [
    warningAt(
      ['findings', findings[0] ?? ''],
      'findings-alike',
      message,
      'Add a test that they give different results, or say in “expects” how they differ.',
    ),
  ];
}

function unexpected(tree: Tree, tally: ReadonlyMap<string, Tally>): readonly Problem[] {
  const findings = Object.keys(tree.findings).length;
  return [...tally].flatMap(([test, { known, shares }]) => {
    // A finding of which nothing is known may give any result.
    if (findings === 0 || known < findings) return [];
    return Object.keys(tree.tests[test]?.results ?? {})
      .filter((_, place) => shares[place] === 0)
      .map((result) => {
        const message = `No finding expects the result ${quote(result)} of ${quote(test)}.`;
        return warningAt(
          ['tests', test, 'results', result],
          'result-unexpected',
          message,
          'Send its branch to a finding with some weight, or expect it of one.',
        );
      });
  });
}
