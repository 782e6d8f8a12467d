import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addToHistory,
  beliefOf,
  chosen,
  compileFaultModel,
  NO_EVIDENCE,
  NO_HISTORY,
  type Belief,
  type Evidence,
} from '../../trees/belief/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { arbitraryCase } from './arbitrary-case.ts';

function probability(belief: Belief, finding: string): number {
  return belief.findings.find((held) => held.finding === finding)?.probability ?? -1;
}

function evidence(results: Readonly<Record<string, string>>, failed: readonly string[] = []): Evidence {
  return { observations: Object.entries(results).map(([id, result]) => chosen(id, result)), failed };
}

/** Two findings and one test that tells them apart without doubt, and nothing outside the tree. */
function certainTree() {
  const document = smallDocument();
  const { 'speaker-open': speaker, 'volume-down': volume } = document.findings;
  if (speaker === undefined || volume === undefined) throw new Error('the small tree has changed');
  return treeOf({
    ...document,
    defaults: { reliability: 1, unlisted: 0 },
    tests: { tone: document.tests['tone'] ?? never() },
    findings: {
      'speaker-open': { ...speaker, expects: { tone: 'silent' } },
      'volume-down': { ...volume, expects: { tone: 'silent' } },
    },
    symptoms: { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 3, 'volume-down': 2 } } },
  });
}

function never(): never {
  throw new Error('the small tree has changed');
}

describe('before any test', () => {
  test('a path’s flow makes the prior, scaled to leave the rest its share', () => {
    const belief = beliefOf(compileFaultModel(smallTree(), NO_HISTORY), 'dark-screen', NO_EVIDENCE);
    expect(probability(belief, 'capacitor-short')).toBeCloseTo(0.98 * 0.1, 12);
    expect(probability(belief, 'converter-low')).toBeCloseTo(0.98 * 0.9 * 0.2, 12);
    expect(probability(belief, 'ribbon-loose')).toBeCloseTo(0.98 * 0.9 * 0.7 * 0.75 * 0.5, 12);
    expect(probability(belief, 'unlisted')).toBeCloseTo(0.02, 12);
  });

  test('a symptom’s own weights go before its path, and every finding of the tree is listed', () => {
    const belief = beliefOf(compileFaultModel(smallTree(), NO_HISTORY), 'no-sound', NO_EVIDENCE);
    expect(probability(belief, 'speaker-open')).toBeCloseTo(0.98 * 0.6, 12);
    expect(probability(belief, 'panel-dead')).toBe(0);
    expect(belief.findings).toHaveLength(9);
  });

  test('ten confirmed jobs weigh as much as the author’s strength of ten', () => {
    const history = { ...NO_HISTORY, findings: { 'no-sound': { 'volume-down': 10 } } };
    const belief = beliefOf(compileFaultModel(smallTree(), history), 'no-sound', NO_EVIDENCE);
    expect(probability(belief, 'volume-down')).toBeCloseTo((10 * 0.98 * 0.4 + 10) / 20, 12);
    expect(belief.findings[0]).toMatchObject({ finding: 'volume-down', jobs: 10 });
  });

  test('jobs confirmed for a finding that the tree no longer has count for nothing', () => {
    const history = { ...NO_HISTORY, findings: { 'no-sound': { gone: 50 } } };
    const belief = beliefOf(compileFaultModel(smallTree(), history), 'no-sound', NO_EVIDENCE);
    expect(probability(belief, 'speaker-open')).toBeCloseTo(0.98 * 0.6, 12);
  });

  test('findings that are equally likely stand in the tree’s order, unlisted after them', () => {
    const belief = beliefOf(compileFaultModel(smallTree(), NO_HISTORY), 'no-sound', NO_EVIDENCE);
    const order = belief.findings.filter((held) => held.probability === 0).map(({ finding }) => finding);
    expect(order).toEqual([
      'capacitor-short',
      'converter-low',
      'converter-high',
      'joint-open',
      'ribbon-loose',
      'panel-dead',
    ]);
  });
});

describe('evidence', () => {
  test('a result raises the finding that expects it by the likelihood ratio of its reliability', () => {
    const model = compileFaultModel(smallTree(), NO_HISTORY);
    const before = beliefOf(model, 'dark-screen', NO_EVIDENCE);
    const after = beliefOf(model, 'dark-screen', evidence({ 'rail-in': 'low' }));
    const odds = (belief: Belief) =>
      probability(belief, 'converter-low') / probability(belief, 'converter-high');
    const miss = 0.02 / 3;
    expect(odds(after) / odds(before)).toBeCloseTo((0.98 + miss) / miss, 9);
  });

  test('a remedy that did not mend leaves its finding one part in twenty of its odds', () => {
    const model = compileFaultModel(smallTree(), NO_HISTORY);
    const odds = (belief: Belief) => probability(belief, 'speaker-open') / probability(belief, 'volume-down');
    const before = odds(beliefOf(model, 'no-sound', NO_EVIDENCE));
    const after = odds(beliefOf(model, 'no-sound', evidence({}, ['speaker-open'])));
    expect(after / before).toBeCloseTo(0.05, 12);
  });

  test('a remedy’s record moves its fix rate from the author’s 0.95 at strength ten', () => {
    const history = { ...NO_HISTORY, remedies: { 'speaker-open': { tried: 30, mended: 12 } } };
    const model = compileFaultModel(smallTree(), history);
    expect(model.fixRate('speaker-open')).toBeCloseTo((9.5 + 12) / 40, 12);
    expect(model.fixRate('volume-down')).toBe(0.95);
    expect(model.fixRate('unlisted')).toBe(0);
  });

  test('what fits nothing in the tree is said to be impossible, and all of it is unlisted', () => {
    const model = compileFaultModel(certainTree(), NO_HISTORY);
    const belief = beliefOf(model, 'no-sound', evidence({ tone: 'heard' }));
    expect(belief.impossible).toBe(true);
    expect(belief.findings[0]).toEqual({ finding: 'unlisted', probability: 1, jobs: 0 });
    expect(beliefOf(model, 'no-sound', evidence({ tone: 'silent' })).impossible).toBe(false);
  });

  test('three hundred contrary tests do not underflow: contrary pairs cancel to the prior', () => {
    const document = smallDocument();
    const tone = document.tests['tone'] ?? never();
    const ids = Array.from({ length: 300 }, (_, index) => `tone-${String(index)}`);
    const tests = Object.fromEntries(ids.map((id) => [id, { ...tone, reliability: 1 - 1e-9 }]));
    const expects = (flip: number) =>
      Object.fromEntries(ids.map((id, index) => [id, index % 2 === flip ? 'heard' : 'silent']));
    const { 'speaker-open': speaker = never(), 'volume-down': volume = never() } = document.findings;
    const tree = treeOf({
      ...document,
      defaults: { unlisted: 0 },
      interlocks: [],
      tests,
      findings: {
        'speaker-open': { ...speaker, prove: [], expects: expects(0) },
        'volume-down': { ...volume, prove: [], expects: expects(1) },
      },
      symptoms: { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 3, 'volume-down': 1 } } },
    });
    const made = Object.fromEntries(ids.map((id) => [id, 'heard']));
    const belief = beliefOf(compileFaultModel(tree, NO_HISTORY), 'no-sound', evidence(made));
    expect(belief.impossible).toBe(false);
    expect(Math.abs(probability(belief, 'speaker-open') - 0.75)).toBeLessThan(1e-9);
  });

  test('an id that the tree does not have is a bug and throws its name', () => {
    const model = compileFaultModel(smallTree(), NO_HISTORY);
    expect(() => beliefOf(model, 'constructor', NO_EVIDENCE)).toThrow('unknown-symptom');
    expect(() => beliefOf(model, 'no-sound', evidence({ nowhere: 'x' }))).toThrow('"nowhere"');
  });
});

describe('on any tree, history and evidence', () => {
  test('probabilities sum to one within 1e-12 and come most likely first', () => {
    fc.assert(
      fc.property(arbitraryCase(), (drawn) => {
        const { findings } = beliefOf(
          compileFaultModel(drawn.tree, drawn.history),
          drawn.symptom,
          drawn.evidence,
        );
        const values = findings.map((held) => held.probability);
        expect(Math.abs(values.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-12);
        expect(values).toEqual(values.toSorted((a, b) => b - a));
      }),
    );
  });

  test('the order of the evidence does not matter (1e-12)', () => {
    fc.assert(
      fc.property(arbitraryCase(), ({ tree, history, symptom, evidence: shown }) => {
        const model = compileFaultModel(tree, history);
        const turned = {
          observations: shown.observations.toReversed(),
          failed: shown.failed.toReversed(),
        };
        const after = beliefOf(model, symptom, turned);
        for (const { finding, probability: value } of beliefOf(model, symptom, shown).findings) {
          expect(Math.abs(probability(after, finding) - value)).toBeLessThan(1e-12);
        }
      }),
    );
  });

  test('a job confirmed for a finding raises that finding’s prior, and lowers no more than the rest', () => {
    fc.assert(
      fc.property(arbitraryCase(), fc.nat(), ({ tree, history, symptom }, choice) => {
        const ids = [...Object.keys(tree.findings), 'unlisted'];
        const finding = ids[choice % ids.length] ?? 'unlisted';
        const more = addToHistory(history, { confirmed: { symptom, finding }, results: [], remedies: [] }, 1);
        const before = beliefOf(compileFaultModel(tree, history), symptom, NO_EVIDENCE);
        const after = beliefOf(compileFaultModel(tree, more), symptom, NO_EVIDENCE);
        for (const id of ids) {
          const change = probability(after, id) - probability(before, id);
          if (id !== finding) expect(change).toBeLessThanOrEqual(1e-15);
          else if (probability(before, id) < 1) expect(change).toBeGreaterThan(0);
        }
      }),
    );
  });
});
