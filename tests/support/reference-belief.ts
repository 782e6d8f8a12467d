import cdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Accuracy, History } from '../../trees/belief/index.ts';
import type { Test, Tree } from '../../trees/document/index.ts';

/** One test made, as the reference takes it: a chosen result, or a reading that it spreads over the bands itself. */
export type ReferenceAnswer =
  | { readonly test: string; readonly result: string }
  | {
      readonly test: string;
      readonly value: number | 'OL';
      readonly accuracy: Accuracy;
      readonly reference?: number;
    };

/**
 * The belief room's arithmetic over again, straight from DESIGN section 4 with plain loops and no tables, to hold the real
 * one against. It shares no code with it but the normal distribution function, and goes down every path one by one.
 */
export function referenceBelief(
  tree: Tree,
  history: History,
  symptom: string,
  answers: readonly ReferenceAnswer[],
  failed: readonly string[],
): Map<string, number> {
  const findings = [...Object.keys(tree.findings), 'unlisted'];
  const prior = priors(tree, history, symptom);
  const scores = new Map<string, number>();
  for (const finding of findings) {
    let score = Math.log(prior.get(finding) ?? 0);
    for (const answer of answers) {
      const test = tree.tests[answer.test];
      if (test === undefined) throw new Error(answer.test);
      let term = 0;
      for (const result of Object.keys(test.results)) {
        term += weight(test, answer, result) * resultProbability(tree, history, answer.test, finding, result);
      }
      score += Math.log(term);
    }
    for (const tried of failed) {
      if (tried === finding) score += Math.log(1 - fixRate(tree, history, finding));
    }
    scores.set(finding, score);
  }
  return shares(scores);
}

/** P(r|evidence) for each result of a test, given {@link referenceBelief}'s answer. */
export function referenceBranches(
  tree: Tree,
  history: History,
  belief: ReadonlyMap<string, number>,
  test: string,
): Map<string, number> {
  const branches = new Map<string, number>();
  for (const result of Object.keys(tree.tests[test]?.results ?? {})) {
    let likelihood = 0;
    for (const [finding, probability] of belief) {
      likelihood += probability * resultProbability(tree, history, test, finding, result);
    }
    branches.set(result, likelihood);
  }
  return branches;
}

function shares(scores: ReadonlyMap<string, number>): Map<string, number> {
  const largest = Math.max(...scores.values());
  const belief = new Map<string, number>();
  if (largest === -Infinity) {
    for (const finding of scores.keys()) belief.set(finding, finding === 'unlisted' ? 1 : 0);
    return belief;
  }
  let total = 0;
  for (const score of scores.values()) total += Math.exp(score - largest);
  for (const [finding, score] of scores) belief.set(finding, Math.exp(score - largest) / total);
  return belief;
}

function priors(tree: Tree, history: History, symptom: string): Map<string, number> {
  const { strength, unlisted } = tree.defaults;
  const expected = new Map<string, number>([['unlisted', unlisted]]);
  const weights = tree.symptoms[symptom]?.weights ?? {};
  const weighted = Object.keys(weights).length > 0;
  let total = 0;
  for (const finding of Object.keys(tree.findings)) total += read(weights, finding);
  for (const finding of Object.keys(tree.findings)) {
    const share = weighted ? read(weights, finding) / total : 0;
    expected.set(finding, (1 - unlisted) * share);
  }
  if (!weighted) {
    for (const path of pathsFrom(tree, symptom)) {
      expected.set(path.finding, (expected.get(path.finding) ?? 0) + (1 - unlisted) * path.flow);
    }
  }
  const counts = pick(history.findings, symptom);
  let jobs = 0;
  for (const finding of expected.keys()) jobs += read(counts, finding);
  const prior = new Map<string, number>();
  for (const [finding, share] of expected) {
    prior.set(finding, (strength * share + read(counts, finding)) / (strength + jobs));
  }
  return prior;
}

function resultProbability(
  tree: Tree,
  history: History,
  testId: string,
  finding: string,
  result: string,
): number {
  const test = tree.tests[testId];
  if (test === undefined) throw new Error(testId);
  const results = Object.keys(test.results);
  if (finding === 'unlisted') return 1 / results.length;
  const share = expectedShare(tree, testId, finding, result);
  const reliability = test.reliability ?? tree.defaults.reliability;
  const q = reliability * (share ?? 1 / results.length) + (1 - reliability) / results.length;
  const counts = pick(pick(history.results, testId), finding);
  let jobs = 0;
  for (const each of results) jobs += read(counts, each);
  const strength = share === null ? 2 : 8;
  return (strength * q + read(counts, result)) / (strength + jobs);
}

function expectedShare(tree: Tree, test: string, finding: string, result: string): number | null {
  const expects = tree.findings[finding]?.expects ?? {};
  if (Object.hasOwn(expects, test)) {
    const expected = expects[test];
    if (typeof expected === 'string') return expected === result ? 1 : 0;
    return read(expected, result);
  }
  let passed = 0;
  let left = 0;
  for (const symptom of Object.keys(tree.symptoms)) {
    for (const path of pathsFrom(tree, symptom)) {
      if (path.finding !== finding) continue;
      for (const made of path.made) {
        if (made.test === test) passed += path.flow;
        if (made.test === test && made.result === result) left += path.flow;
      }
    }
  }
  return passed > 0 ? left / passed : null;
}

interface Path {
  readonly finding: string;
  readonly flow: number;
  readonly made: readonly { readonly test: string; readonly result: string }[];
}

/** Every way from a symptom's first step to a finding, with the part of its unit of flow that goes that way. */
function pathsFrom(tree: Tree, symptom: string): Path[] {
  const paths: Path[] = [];
  const walk = (at: string, step: string, flow: number, made: Path['made']): void => {
    const here = tree.symptoms[at]?.steps[step];
    if (here === undefined) return;
    let total = 0;
    for (const branch of Object.values(here.then)) total += branch.weight;
    for (const [result, { go, weight: branchWeight }] of Object.entries(here.then)) {
      const onward = (flow * branchWeight) / total;
      const now = [...made, { test: here.test, result }];
      if (go.startsWith('finding:')) paths.push({ finding: go.slice(8), flow: onward, made: now });
      else if (!go.startsWith('symptom:')) walk(at, go, onward, now);
      else {
        const [next = '', place] = go.slice(8).split('/');
        walk(next, place ?? tree.symptoms[next]?.first ?? '', onward, now);
      }
    }
  };
  walk(symptom, tree.symptoms[symptom]?.first ?? '', 1, []);
  return paths;
}

function weight(test: Test, answer: ReferenceAnswer, result: string): number {
  if ('result' in answer) return answer.result === result ? 1 : 0;
  const band = test.results[result]?.band ?? {};
  if (answer.value === 'OL') return band.to === undefined ? 1 : 0;
  const ratio = band.of === undefined ? 1 : (answer.reference ?? Number.NaN);
  const first = (band.from ?? -Infinity) * ratio;
  const second = (band.to ?? Infinity) * ratio;
  const { percent, constant } = answer.accuracy;
  const u = ((percent / 100) * Math.abs(answer.value) + constant) / Math.sqrt(3);
  const from = (Math.min(first, second) - answer.value) / u;
  const to = (Math.max(first, second) - answer.value) / u;
  return from > 0 ? cdf(-from, 0, 1) - cdf(-to, 0, 1) : cdf(to, 0, 1) - cdf(from, 0, 1);
}

function fixRate(tree: Tree, history: History, finding: string): number {
  if (finding === 'unlisted') return 0;
  const { tried, mended } = pick(history.remedies, finding) ?? { tried: 0, mended: 0 };
  return (10 * tree.defaults.fixRate + mended) / (10 + tried);
}

function pick<V>(record: Readonly<Record<string, V>> | undefined, key: string): V | undefined {
  return record !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;
}

function read(record: Readonly<Record<string, number>> | undefined, key: string): number {
  return pick(record, key) ?? 0;
}
