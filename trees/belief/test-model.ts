import {
  expectationOf,
  own,
  UNLISTED,
  type Finding,
  type Flows,
  type Test,
  type Tree,
} from '../document/index.ts';
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

/**
 * P(r|f,t) = (K q + n(t,f,r)) / (K + n(t,f)) with q = g a + (1 - g)/k (DESIGN section 4, Results). `unlisted` expects
 * 1/k of everything and learns nothing; results that the test no longer has do not count.
 */
export function testModelOf(
  tree: Tree,
  flows: Flows,
  history: History,
  findings: readonly string[],
  id: string,
  test: Test,
): TestModel {
  const results = Object.keys(test.results);
  const k = results.length;
  const reliability = test.reliability ?? tree.defaults.reliability;
  const counted = own(history.results, id) ?? {};
  const probability = new Float64Array(findings.length * k);
  const jobs = new Float64Array(k);
  const weight = new Float64Array(findings.length).fill(Infinity);
  const shares = new Float64Array(k);
  findings.forEach((finding, row) => {
    if (finding === UNLISTED) {
      probability.fill(1 / k, row * k, row * k + k);
      return;
    }
    const authored = tree.findings[finding];
    if (authored === undefined) return;
    const known = expectInto(shares, { id, test, finding, authored, flows });
    const strength = known ? STRENGTH_KNOWN : STRENGTH_UNKNOWN;
    const ofFinding = own(counted, finding);
    const seen = ofFinding === undefined ? null : results.map((result) => own(ofFinding, result) ?? 0);
    const total = strength + (seen?.reduce((a, b) => a + b, 0) ?? 0);
    weight[row] = total;
    for (let column = 0; column < k; column += 1) {
      const count = seen?.[column] ?? 0;
      const reliable = reliability * (shares[column] ?? 0) + (1 - reliability) / k;
      probability[row * k + column] = (strength * reliable + count) / total;
      jobs[column] = (jobs[column] ?? 0) + count;
    }
  });
  let logarithm: Float64Array | null = null;
  return {
    test: id,
    results,
    probability,
    weight,
    // Many questions never ask for it.
    get logarithm() {
      return (logarithm ??= probability.map(Math.log));
    },
    jobs,
  };
}

/** Writes a(r|f,t) as `expectationOf` says it; whether anything is known. */
function expectInto(
  shares: Float64Array,
  of: {
    readonly id: string;
    readonly test: Test;
    readonly finding: string;
    readonly authored: Finding;
    readonly flows: Flows;
  },
): boolean {
  const { id, test, finding, authored, flows } = of;
  if (Object.hasOwn(authored.expects, id)) {
    shares.set(expectationOf(id, test, authored, undefined).shares);
    return true;
  }
  if (flows.shareInto(shares, id, finding)) return true;
  shares.fill(1 / shares.length);
  return false;
}
