import { expectationOf, own, type Finding, type Flows, type Test, type Tree } from '../document/index.ts';
import type { History } from './history.ts';

/** How many jobs the author's expectation weighs, where a(r|f,t) is known and where it is not (DESIGN section 4). */
const STRENGTH_KNOWN = 8;
const STRENGTH_UNKNOWN = 2;

/**
 * What one test shows. Tables are row by finding (the fault model's order, `unlisted` last), column by result (the
 * document's order): entry `finding * results.length + result`.
 */
export interface TestModel {
  readonly test: string;
  readonly results: readonly string[];
  /** P(r|f,t); each row sums to one. */
  readonly probability: Float64Array;
  /** By finding K + n(t,f), the units that its row weighs: the strength of its Dirichlet. Infinite for `unlisted`. */
  readonly weight: Float64Array;
  /** Its natural logarithm; -Infinity for what cannot be. */
  readonly logarithm: Float64Array;
  /** By result: the sum over findings of n(t,f,r), confirmed jobs in which the test gave it. */
  readonly jobs: Float64Array;
}

/** What the tables of all tests of a tree are made from. */
export interface Expecting {
  readonly tree: Tree;
  readonly flow: Flows;
  readonly history: History;
  /** The fault model's rows: the tree's findings in its order, `unlisted` last. */
  readonly findings: readonly string[];
  /** By row the finding as the tree has it; null for `unlisted`. */
  readonly authored: readonly (Finding | null)[];
}

/**
 * P(r|f,t) = (K q + n(t,f,r)) / (K + n(t,f)) with q = g a + (1 - g)/k (DESIGN section 4, Results). `unlisted` expects
 * 1/k of everything and learns nothing; results that the test no longer has do not count.
 */
export function testModelOf(of: Expecting, id: string, test: Test): TestModel {
  const { tree, findings, authored } = of;
  const results = Object.keys(test.results);
  const k = results.length;
  const reliability = test.reliability ?? tree.defaults.reliability;
  const counted = countedOf(of, id, results);
  const expectInto = expecting(of, id, test);
  const probability = new Float64Array(findings.length * k);
  const jobs = new Float64Array(k);
  const weight = new Float64Array(findings.length).fill(Infinity);
  const shares = new Float64Array(k);
  for (let row = 0; row < findings.length; row += 1) {
    const finding = authored[row] ?? null;
    if (finding === null) {
      probability.fill(1 / k, row * k, row * k + k);
      continue;
    }
    const strength = expectInto(shares, finding, row) ? STRENGTH_KNOWN : STRENGTH_UNKNOWN;
    const seen = counted?.(findings[row] ?? '') ?? null;
    const total = strength + (seen?.reduce((a, b) => a + b, 0) ?? 0);
    weight[row] = total;
    for (let column = 0; column < k; column += 1) {
      const count = seen === null ? 0 : (seen[column] ?? 0);
      const reliable = reliability * (shares[column] ?? 0) + (1 - reliability) / k;
      probability[row * k + column] = (strength * reliable + count) / total;
      jobs[column] = (jobs[column] ?? 0) + count;
    }
  }
  return withLogarithm({ test: id, results, probability, weight, jobs });
}

/** n(t,f,r) of one test by finding, in the order of its results; null where no job has made it. */
function countedOf(
  { history }: Expecting,
  id: string,
  results: readonly string[],
): ((finding: string) => readonly number[] | null) | null {
  const counted = own(history.results, id);
  if (counted === undefined) return null;
  return (finding) => {
    const ofFinding = own(counted, finding);
    return ofFinding === undefined ? null : results.map((result) => own(ofFinding, result) ?? 0);
  };
}

/** Many questions never ask for the logarithm. */
function withLogarithm(model: Omit<TestModel, 'logarithm'>): TestModel {
  let logarithm: Float64Array | null = null;
  return {
    ...model,
    get logarithm() {
      return (logarithm ??= model.probability.map(Math.log));
    },
  };
}

/** Writes a(r|f,t) of one test as `expectationOf` says it; whether anything is known. */
function expecting(
  { flow }: Expecting,
  id: string,
  test: Test,
): (shares: Float64Array, authored: Finding, row: number) => boolean {
  const passing = flow.sharesAt(id);
  return (shares, authored, row) => {
    if (Object.hasOwn(authored.expects, id)) {
      shares.set(expectationOf(id, test, authored, undefined).shares);
      return true;
    }
    if (passing(shares, row)) return true;
    shares.fill(1 / shares.length);
    return false;
  };
}
