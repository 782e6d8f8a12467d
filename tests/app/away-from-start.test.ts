import { describe, expect, it } from 'vitest';
import { awayFromStart } from '../../app/bench/job/away-from-start.ts';
import { compileChart, replay, standing, type JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();
const reading = { value: 4700, typed: '4k7', accuracy: { percent: 1, constant: 0.3 } };
const SHELL_OPEN: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };

function walked(events: readonly JobEvent[]) {
  const replayed = replay(compileChart(tree), 'dark-screen', events);
  if (!replayed.ok) throw new Error(replayed.refusal.message);
  return standing(replayed.walk);
}

describe('the bench away from its start', () => {
  it('is nowhere at the start, nor where only the shell is open', () => {
    expect(awayFromStart(tree, walked([]))).toEqual([]);
    expect(awayFromStart(tree, walked([SHELL_OPEN]))).toEqual([]);
  });

  it('is told of what an interlock guards, with the changeover back, and of nothing else', () => {
    const events: readonly JobEvent[] = [
      SHELL_OPEN,
      { kind: 'answer', test: 'supply-resistance', result: 'clear', reading },
      { kind: 'change', axis: 'power', to: 'on' },
    ];
    const away = awayFromStart(tree, walked(events));
    expect(away).toMatchObject([
      { axis: 'power', state: 'on', start: 'off', back: { say: 'Switch the supply off.' } },
    ]);
  });
});
