import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  beliefOf,
  chosen,
  compileFaultModel,
  NO_EVIDENCE,
  NO_HISTORY,
  worstFit,
  type Evidence,
  type FaultModel,
} from '../../trees/belief/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { smallDocument, treeOf, type TreeDocument } from '../support/trees.ts';
import { arbitraryCase } from './arbitrary-case.ts';

/**
 * Two findings, 0.588 and 0.392 before any test, and three tests of two results each: `tone` and `click` are silent with
 * either, `hum` is heard with the second. P(r|f,t) is 0.985 or 0.015, and 0.95 or 0.05 for `click`.
 */
function model(defaults: TreeDocument['defaults'] = {}, click = 0.9): FaultModel {
  const document = smallDocument();
  const { 'speaker-open': speaker, 'volume-down': volume } = document.findings;
  const { tone } = document.tests;
  if (speaker === undefined || volume === undefined || tone === undefined)
    throw new Error('the small tree has changed');
  const tree = treeOf({
    ...document,
    defaults,
    tests: { tone, hum: tone, click: { ...tone, reliability: click } },
    findings: {
      'speaker-open': { ...speaker, expects: { tone: 'silent', hum: 'silent', click: 'silent' } },
      'volume-down': { ...volume, expects: { tone: 'silent', hum: 'heard', click: 'silent' } },
    },
    symptoms: { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 3, 'volume-down': 2 } } },
  });
  return compileFaultModel(tree, NO_HISTORY);
}

function evidence(...results: readonly (readonly [test: string, result: string])[]): Evidence {
  return { observations: results.map(([id, result]) => chosen(id, result)), failed: [] };
}

describe('the worst fit', () => {
  const odd = evidence(['hum', 'silent'], ['tone', 'heard'], ['click', 'heard']);

  test('is the answer without which something not in the tree is least likely', () => {
    const worst = worstFit(model(), 'no-sound', odd);
    const speaker = 0.588 * 0.985;
    const volume = 0.392 * 0.015;
    const unlisted = 0.02 * 0.125;
    expect(worst?.test).toBe('tone');
    expect(worst?.unlisted).toBeCloseTo(
      unlisted / (unlisted + speaker * 0.015 * 0.05 + volume * 0.015 * 0.05),
      12,
    );
    expect(worst?.unlisted).toBeCloseTo(0.850689, 6);
    expect(worst?.without).toBeCloseTo(0.005 / (0.005 + speaker * 0.05 + volume * 0.05), 12);
    expect(worst?.without).toBeCloseTo(0.145973, 6);
    expect(worst?.leader.finding).toBe('speaker-open');
    expect(worst?.leader.probability).toBeCloseTo(0.845444, 6);
  });

  test('leaves the remedies that did not mend in place', () => {
    const fixRate = model().fixRate('speaker-open');
    const worst = worstFit(model(), 'no-sound', { ...odd, failed: ['speaker-open'] });
    const speaker = 0.588 * 0.985 * 0.05 * (1 - fixRate);
    expect(worst?.test).toBe('tone');
    expect(worst?.without).toBeCloseTo(0.005 / (0.005 + speaker + 0.392 * 0.015 * 0.05), 12);
  });

  test('may leave something not in the tree in the lead', () => {
    const worst = worstFit(model({ unlisted: 0.3 }), 'no-sound', odd);
    const speaker = 0.42 * 0.985 * 0.05;
    expect(worst?.leader.finding).toBe('unlisted');
    expect(worst?.leader.probability).toBe(worst?.without);
    expect(worst?.without).toBeCloseTo(0.075 / (0.075 + speaker + 0.28 * 0.015 * 0.05), 12);
  });

  test('of two that fit equally badly is the first in the tree’s order', () => {
    const alike = model({ reliability: 0.9 });
    const heard = [chosen('click', 'heard'), chosen('tone', 'heard')];
    for (const observations of [heard, heard.toReversed()])
      expect(worstFit(alike, 'no-sound', { observations, failed: [] })?.test).toBe('tone');
  });

  test('is the one answer that rules every finding out', () => {
    const certain = model({ reliability: 1, unlisted: 0 });
    expect(worstFit(certain, 'no-sound', evidence(['hum', 'silent'], ['tone', 'heard']))).toMatchObject({
      test: 'tone',
      unlisted: 1,
      without: 0,
      leader: { finding: 'speaker-open', probability: 1 },
    });
  });
});

describe('there is no worst fit', () => {
  test('before any answer', () => {
    expect(worstFit(model({ unlisted: 0.9 }), 'no-sound', NO_EVIDENCE)).toBeNull();
  });

  test('where a finding of the tree leads', () => {
    expect(worstFit(model(), 'no-sound', evidence(['tone', 'silent']))).toBeNull();
  });

  test('where the prior alone speaks for something not in the tree, and every answer against it', () => {
    const mostly = model({ unlisted: 0.9 });
    const heard = evidence(['hum', 'silent']);
    expect(beliefOf(mostly, 'no-sound', heard).findings[0]?.finding).toBe('unlisted');
    expect(worstFit(mostly, 'no-sound', heard)).toBeNull();
  });

  test('where two answers each rule the whole tree out', () => {
    const certain = model({ reliability: 1, unlisted: 0 }, 1);
    const impossible = evidence(['tone', 'heard'], ['click', 'heard']);
    expect(beliefOf(certain, 'no-sound', impossible)).toMatchObject({ impossible: true });
    expect(worstFit(certain, 'no-sound', impossible)).toBeNull();
  });
});

describe('of any case', () => {
  const cases = arbitraryCase().map((one) => ({ ...one, tree: likelyOutside(one.tree) }));

  test('taking the worst fit away makes something not in the tree less likely, no other answer more so, in any order', () => {
    fc.assert(
      fc.property(cases, ({ tree, history, symptom, evidence: known }) => {
        const compiled = compileFaultModel(tree, history);
        const worst = worstFit(compiled, symptom, known);
        const turned = { ...known, observations: known.observations.toReversed() };
        expect(worstFit(compiled, symptom, turned)).toEqual(worst);
        if (worst === null) return;
        const without = known.observations.map(({ test: left }) =>
          unlistedWithout(compiled, symptom, known, left),
        );
        expect(worst.unlisted).toBeCloseTo(unlistedWithout(compiled, symptom, known, ''), 12);
        expect(worst.without).toBeLessThan(worst.unlisted);
        expect(worst.without).toBeCloseTo(Math.min(...without), 12);
        expect(worst.without).toBeCloseTo(unlistedWithout(compiled, symptom, known, worst.test), 12);
      }),
    );
  });
});

/** So that `unlisted` leads often enough for the property to say something. */
function likelyOutside(tree: Tree): Tree {
  return { ...tree, defaults: { ...tree.defaults, unlisted: Math.max(tree.defaults.unlisted, 0.2) } };
}

function unlistedWithout(compiled: FaultModel, symptom: string, known: Evidence, left: string): number {
  const observations = known.observations.filter(({ test: id }) => id !== left);
  const { findings } = beliefOf(compiled, symptom, { ...known, observations });
  return findings.find(({ finding }) => finding === 'unlisted')?.probability ?? NaN;
}
