import { describe, expect, it, vi } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { startSearch } from '../../trees/plan/index.ts';
import { spawned, spawnedWithin } from './command-line.ts';
import { expectShape, planned, type Shown } from './planned.ts';
import { panel, panelTree } from './shop-with-rate.ts';

describe('plan, stopped', () => {
  const large = ['--symptom', 'no-power-led', '--goal', 'fix'];

  it('stops after --seconds, and says by how much the plan may fall short', async () => {
    const shown = await planned(panel, ...large, '--seconds', '0');
    expectShape(shown);
    const { job, bench } = firstSituation(panelTree, 'no-power-led');
    const model = compileFaultModel(panelTree, NO_HISTORY);
    const { actions, expectedTotal, gap } = startSearch({
      model,
      goal: 'fix',
      job,
      bench,
      rate: null,
    }).plan();
    expect(shown).toEqual({ actions, expectedTotal, method: 'exact', gap });
    expect(gap).toBeGreaterThan(1);
    expect(gap).toBeLessThanOrEqual(expectedTotal);
    expect((await planned(panel, ...large, '--seconds', '2')).gap).toBeLessThan(gap);
    expect(spawned('plan', panel, ...large, '--seconds', '0').stdout).toMatch(
      /exact: at most \d+\.\d minutes more than the best there is\n$/,
    );
  });

  it('stops where it would need more memory than there is, rather than fail', () => {
    const argv = [...large, '--seconds', '86400', '--json'];
    const { status, stdout, stderr } = spawnedWithin(120, 'plan', panel, ...argv);
    expect(status, stderr).toBe(0);
    const shown = JSON.parse(stdout) as Shown;
    expectShape(shown);
    expect(shown.gap).toBeGreaterThan(1);
  }, 120_000);

  it.runIf(process.platform !== 'win32')('stops at Ctrl+C, and listens for it no longer', async () => {
    const before = process.listeners('SIGINT');
    const running = planned(panel, ...large, '--seconds', '86400');
    await vi.waitFor(() => expect(process.listenerCount('SIGINT')).toBe(before.length + 1), 20_000);
    process.kill(process.pid, 'SIGINT');
    const shown = await running;
    expectShape(shown);
    expect(shown.gap).toBeGreaterThan(1);
    expect(process.listeners('SIGINT')).toEqual(before);
  });
});
