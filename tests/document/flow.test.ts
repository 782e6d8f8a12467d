import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import {
  destination,
  expectationOf,
  flows,
  flowsOfFew,
  type Flows,
  type Tree,
} from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';
import { mustHave, stepOf } from './parts.ts';

describe('the flow down the paths', () => {
  const tree = smallTree();
  const { arriving, passing } = flows(tree);

  it('splits by the branches’ weights at each step (to 1e-12)', () => {
    const dark = mustHave(arriving.get('dark-screen'));
    expect(dark.get('capacitor-short')).toBeCloseTo(1 / 10, 12);
    expect(dark.get('converter-low')).toBeCloseTo((9 / 10) * (2 / 10), 12);
    expect(dark.get('joint-open')).toBeCloseTo((9 / 10) * (7 / 10) * (1 / 4), 12);
    expect(dark.get('panel-dead')).toBeCloseTo((9 / 10) * (7 / 10) * (3 / 4) * (3 / 8), 12);
    expect(mustHave(arriving.get('no-sound')).get('speaker-open')).toBeCloseTo(3 / 5, 12);
  });

  it('goes on in another symptom’s path, and adds up there over all symptoms (to 1e-12)', () => {
    const crossing = (9 / 10) * (7 / 10) * (3 / 4) * (1 / 8);
    expect(mustHave(arriving.get('dark-screen')).get('speaker-open')).toBeCloseTo(crossing * (3 / 5), 12);
    const silent = mustHave(passing.get('tone')?.get('speaker-open'));
    expect(silent[0]).toBe(0);
    expect(silent[1]).toBeCloseTo((1 + crossing) * (3 / 5), 12);
  });

  it('splits equally where weights are absent, and not at all into a branch of weight zero', () => {
    const document = smallDocument();
    stepOf(document, 'no-sound', 'listen').then = {
      heard: { go: 'finding:volume-down' },
      silent: { go: 'finding:speaker-open' },
    };
    expect(flows(treeOf(document)).arriving.get('no-sound')?.get('speaker-open')).toBe(0.5);
    mustHave(stepOf(document, 'no-sound', 'listen').then['silent']).weight = 0;
    expect(flows(treeOf(document)).arriving.get('no-sound')?.get('volume-down')).toBe(1);
  });

  it('does not come to symptoms without a path, nor follow what their weights say', () => {
    const document = smallDocument();
    document.symptoms['hum'] = { title: 'Hum', weights: { 'speaker-open': 1 } };
    expect([...mustHave(flows(treeOf(document)).arriving.get('hum'))]).toEqual([]);
  });

  it('takes steps shared by 2^60 ways once each', () => {
    const shared = flows(treeOf(diamonds(60)));
    const arrived = [...mustHave(shared.arriving.get('dark-screen')).values()];
    expect(arrived.reduce((sum, flow) => sum + flow, 0)).toBeCloseTo(1, 12);
  });

  it('is that of a plain walk down every way there is, whatever the tree (to 1e-9)', () => {
    fc.assert(
      fc.property(arbitraryTree(), (drawn) => {
        const fast = flows(drawn);
        const slow = everyWay(drawn);
        const [fastRows, slowRows] = [rows(fast), rows(slow)];
        for (const key of new Set([...fastRows.keys(), ...slowRows.keys()])) {
          expect(Math.abs((fastRows.get(key) ?? 0) - (slowRows.get(key) ?? 0)), key).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it('gives a few tests the same shares as all of them together, whatever the tree (to 1e-12)', () => {
    fc.assert(
      fc.property(arbitraryTree(), (drawn) => {
        const [all, few] = [flows(drawn), flowsOfFew(drawn)];
        for (const [test, { results }] of Object.entries(drawn.tests)) {
          for (const finding of Object.keys(drawn.findings).keys()) {
            const one = new Float64Array(Object.keys(results).length);
            const other = new Float64Array(one.length);
            expect(few.sharesAt(test)(one, finding)).toBe(all.sharesAt(test)(other, finding));
            one.forEach((share, at) => expect(Math.abs(share - (other[at] ?? NaN))).toBeLessThan(1e-12));
          }
        }
        expect(few.arriving).toEqual(all.arriving);
      }),
    );
  });

  it('all arrives somewhere: the shares of a symptom with a path sum to 1 (to 1e-9)', () => {
    fc.assert(
      fc.property(arbitraryTree(), (drawn) => {
        for (const [symptom, shares] of flows(drawn).arriving) {
          const total = [...shares.values()].reduce((sum, share) => sum + share, 0);
          const hasPath = drawn.symptoms[symptom]?.first !== undefined;
          expect(Math.abs(total - (hasPath ? 1 : 0))).toBeLessThan(1e-9);
        }
      }),
    );
  });
});

describe('what a finding makes a test give', () => {
  const tree = smallTree();
  const { passing } = flows(tree);
  const expectation = (test: string, finding: string) =>
    expectationOf(
      test,
      mustHave(tree.tests[test]),
      mustHave(tree.findings[finding]),
      passing.get(test)?.get(finding),
    );

  it('is what the finding expects, before all else', () => {
    expect(expectation('rail-in', 'panel-dead')).toEqual({ known: true, shares: [1, 0, 0] });
    expect(expectation('border', 'ribbon-loose')).toEqual({ known: true, shares: [0.1, 0.7, 0.2] });
  });

  it('else follows the flow that ends in the finding', () => {
    expect(expectation('supply-resistance', 'converter-low')).toEqual({ known: true, shares: [1, 0] });
  });

  it('else is unknown, each result being as likely', () => {
    expect(expectation('border', 'capacitor-short')).toEqual({ known: false, shares: [1 / 3, 1 / 3, 1 / 3] });
  });

  it('is unknown, too, where flow passes the test but none of it ends in the finding', () => {
    const finding = mustHave(tree.findings['capacitor-short']);
    expect(expectationOf('tone', mustHave(tree.tests['tone']), finding, [0, 0])).toEqual({
      known: false,
      shares: [0.5, 0.5],
    });
  });
});

/** A chain in which every step has two branches that both lead to the next step. */
function diamonds(length: number): TreeDocument {
  const document = smallDocument();
  const steps = mustHave(document.symptoms['dark-screen']?.steps);
  for (let place = 0; place < length; place += 1) {
    const go = place + 1 < length ? `diamond-${String(place + 1)}` : 'finding:panel-dead';
    steps[`diamond-${String(place)}`] = { test: 'tone', then: { heard: { go }, silent: { go, weight: 3 } } };
  }
  mustHave(document.symptoms['dark-screen']).first = 'diamond-0';
  return document;
}

/** The same flows by walking down every way separately: slow, and as DESIGN's section on the prior says it. */
function everyWay(tree: Tree): Pick<Flows, 'arriving' | 'passing'> {
  const arriving = new Map<string, Map<string, number>>();
  const passing = new Map<string, Map<string, number[]>>();
  const walk = (
    came: string,
    symptom: string,
    step: string,
    flow: number,
    passed: readonly (readonly [test: string, result: string])[],
  ): void => {
    const { test, then } = mustHave(tree.symptoms[symptom]?.steps[step]);
    const total = Object.values(then).reduce((sum, { weight }) => sum + weight, 0);
    for (const [result, { go, weight }] of Object.entries(then)) {
      const onward = (flow * weight) / total;
      const way = [...passed, [test, result] as const];
      const place = destination(go, symptom);
      if (place.kind === 'step') walk(came, place.symptom, place.step, onward, way);
      if (place.kind === 'symptom') {
        walk(came, place.symptom, mustHave(tree.symptoms[place.symptom]?.first), onward, way);
      }
      if (place.kind === 'finding') arrive(tree, arriving, passing, came, place.finding, onward, way);
    }
  };
  for (const [symptom, { first }] of Object.entries(tree.symptoms)) {
    if (first !== undefined) walk(symptom, symptom, first, 1, []);
  }
  return { arriving, passing };
}

function arrive(
  tree: Tree,
  arriving: Map<string, Map<string, number>>,
  passing: Map<string, Map<string, number[]>>,
  symptom: string,
  finding: string,
  flow: number,
  way: readonly (readonly [test: string, result: string])[],
): void {
  const shares = arriving.get(symptom) ?? new Map<string, number>();
  arriving.set(symptom, shares.set(finding, (shares.get(finding) ?? 0) + flow));
  for (const [test, result] of way) {
    const results = Object.keys(mustHave(tree.tests[test]).results);
    const byFinding = passing.get(test) ?? new Map<string, number[]>();
    const passed = byFinding.get(finding) ?? results.map(() => 0);
    passed[results.indexOf(result)] = (passed[results.indexOf(result)] ?? 0) + flow;
    passing.set(test, byFinding.set(finding, passed));
  }
}

function rows({ arriving, passing }: Pick<Flows, 'arriving' | 'passing'>): Map<string, number> {
  const all = new Map<string, number>();
  for (const [symptom, shares] of arriving) {
    for (const [finding, share] of shares) all.set(`${symptom} > ${finding}`, share);
  }
  for (const [test, byFinding] of passing) {
    for (const [finding, flow] of byFinding) {
      flow.forEach((part, place) => all.set(`${test}/${String(place)} > ${finding}`, part));
    }
  }
  return all;
}
