import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { treeSchema } from '../../trees/document/index.ts';
import { evaluateWithin } from '../../trees/plan/evaluate.ts';
import { evaluate } from '../../trees/plan/index.ts';

const questions = ['kw1-panel', 'kw1-usb-charge'].flatMap((name) => {
  const file = `${import.meta.dirname}/../../trees/library/${name}.tree.json`;
  const tree = treeSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  const model = compileFaultModel(tree, NO_HISTORY);
  return Object.keys(tree.symptoms).map((symptom) => ({ model, symptom, rate: 60 }));
});

describe('the shipped trees', () => {
  it.each(questions)('are evaluated to isolate with nothing left out or stood for: $symptom', (question) => {
    const found = evaluate({ ...question, goal: 'isolate' });
    expect(found).toMatchObject({ unexplored: 0, stoodFor: 0 });
    expect(found.rightFinding).toBeGreaterThan(0.75);
  });

  it.each(questions)(
    'come out to fix as when five times rarer states are followed, within 0.5 %: $symptom',
    (question) => {
      const found = evaluate({ ...question, goal: 'fix' });
      const finer = evaluateWithin({ ...question, goal: 'fix' }, { smallest: 1e-4 / 5, states: 1e6 });
      expect(found.unexplored).toBe(0);
      expect(finer.stoodFor).toBeLessThan(found.stoodFor);
      expect(Math.abs(found.expectedMinutes / finer.expectedMinutes - 1)).toBeLessThan(0.005);
      expect(Math.abs(found.rightFinding - finer.rightFinding)).toBeLessThan(0.005);
    },
    60_000,
  );
});
