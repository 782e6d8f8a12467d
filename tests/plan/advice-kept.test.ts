import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation, type Answer } from '../../trees/chart/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { advise } from '../../trees/plan/index.ts';

const text = readFileSync(new URL('../../trees/library/kw1-panel.tree.json', import.meta.url));

test('a remedy that hardly mends anything is not advised for making a reading forgotten that fits nothing', () => {
  const { tree } = readAndCheck(text);
  if (tree === null) throw new Error('kw1-panel has errors');
  const model = compileFaultModel(tree, NO_HISTORY);
  const { job, bench } = firstSituation(tree, 'no-game-audio');
  const short: Answer = {
    test: 'supply-resistance',
    result: 'short',
    era: 0,
    reading: { value: 2, typed: '2', accuracy: { percent: 1, constant: 0.3 } },
  };
  const question = { model, job: { ...job, answers: [short] }, bench, rate: null };
  const { best } = advise(question, { kind: 'test', id: 'capacitors-look' });
  if (best?.why.kind === 'remedy') expect(best.why.probability).toBeGreaterThan(0.05);
  else expect(best?.kind).toBe('test');
});
