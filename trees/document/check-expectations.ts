import type { Course } from './course.ts';
import { warnAgainstPath } from './check-against-path.ts';
import { knownResults, type KnownResults, type Range } from './known-results.ts';
import type { Recall } from './memory.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/**
 * Findings that no test tells apart, results that no finding expects, and paths that lead where `expects` says they cannot.
 * For trees without errors; `reached` are the findings that some path leads to. Takes one finding at a time, as the table of all
 * of them can be very large.
 */
export function warnOfExpectations(
  tree: Tree,
  course: Course,
  reached: ReadonlySet<string>,
  recall: Recall,
): readonly Problem[] {
  const ranges = [...course.slots].map(([test, { start, end }]): Range => ({ test, start, end }));
  const knownBy = knownResults(tree, course, ranges, recall);
  const expected = new Float64Array(ranges.at(-1)?.end ?? 0);
  const findingsKnown = new Int32Array(ranges.length);
  const suspects = new Map<number, string[]>();
  const against: Problem[] = [];
  for (const [finding, part] of Object.entries(tree.findings)) {
    const known = knownBy(finding);
    addTo(expected, known.shares);
    addTo(findingsKnown, known.isKnown);
    if (known.against.length > 0) against.push(...warnAgainstPath(tree, course, finding, known.against));
    if (!reached.has(finding)) continue;
    append(
      suspects,
      recall('signature', part, [known], () => signature(ranges, known)),
      finding,
    );
  }
  const alike = [...suspects.values()].flatMap((findings) =>
    findings.length < 2 ? [] : groupBy(findings, (finding) => likeness(ranges, knownBy(finding))),
  );
  return [...alike.flatMap(alikeProblem), ...unexpected(tree, ranges, expected, findingsKnown), ...against];
}

type Numbers = Float64Array | Int32Array;

function addTo(sums: Numbers, numbers: Float64Array | Uint8Array): void {
  for (let at = 0; at < numbers.length; at += 1) sums[at] = (sums[at] ?? 0) + (numbers[at] ?? 0);
}

/**
 * The same number for findings that {@link likeness} finds alike, and hardly ever for others, at a fraction of its
 * cost.
 */
function signature(ranges: readonly Range[], { shares, isKnown }: KnownResults): number {
  let hash = 0;
  for (let place = 0; place < ranges.length; place += 1) {
    const range = ranges[place];
    if (isKnown[place] !== 1 || range === undefined) continue;
    const first = rounded(shares[range.start]);
    let differs = false;
    let next = Math.imul(hash ^ (place + 1), 0x9e3779b1);
    for (let slot = range.start; slot < range.end; slot += 1) {
      const share = rounded(shares[slot]);
      differs ||= share !== first;
      next = Math.imul(next ^ share, 0x85ebca6b) ^ (next >>> 15);
    }
    // An even split says nothing.
    if (differs) hash = next;
  }
  return hash;
}

/** The same text for findings that expect the same of every test. */
function likeness(ranges: readonly Range[], known: KnownResults): string {
  return ranges
    .flatMap((range, place) => {
      if (saysNothing(known, range, place)) return [];
      const shares = Array.from(known.shares.subarray(range.start, range.end), rounded);
      return [`${range.test}:${shares.join()}`];
    })
    .join(' ');
}

/** An even split is what is taken where nothing is known, so the two are the same. */
function saysNothing({ shares, isKnown }: KnownResults, { start, end }: Range, place: number): boolean {
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
