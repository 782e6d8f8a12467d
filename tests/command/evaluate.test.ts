import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { evaluate, type Evaluation } from '../../trees/plan/index.ts';
import { smallDocument, treeOf } from '../support/trees.ts';
import { run, scratch, spawned, written } from './command-line.ts';
import { panel, panelTree, shopWithRate } from './shop-with-rate.ts';

const folder = scratch();
const small = written(folder, 'small.tree.json', smallDocument());
const model = compileFaultModel(treeOf(smallDocument()), NO_HISTORY);
const dark = ['--symptom', 'dark-screen'];

async function evaluated(file: string, ...argv: readonly string[]): Promise<Evaluation> {
  const { status, json, text } = await run('evaluate', file, ...argv);
  expect(status, text).toBe(0);
  return JSON.parse(JSON.stringify(json)) as Evaluation;
}

describe('evaluate', () => {
  it('gives what the tree’s evaluation gives, the five figures first, for the goal fix unless another is named', async () => {
    const shown = await evaluated(small, ...dark);
    expect(Object.keys(shown)).toEqual([
      'expectedMinutes',
      'expectedTests',
      'expectedChangeovers',
      'rightFinding',
      'ambiguityGroups',
      'wrongFix',
      'passedOn',
      'ends',
      'byItem',
      'unexplored',
      'stoodFor',
    ]);
    const question = { model, symptom: 'dark-screen', rate: null };
    expect(shown).toEqual(evaluate({ ...question, goal: 'fix' }));
    expect(await evaluated(small, ...dark, '--goal', 'fix')).toEqual(shown);
    const isolating = await evaluated(small, ...dark, '--goal', 'isolate');
    expect(isolating).toEqual(evaluate({ ...question, goal: 'isolate' }));
    expect(isolating.expectedMinutes).toBeLessThan(shown.expectedMinutes);
  });

  it.each(['fix', 'isolate'])(
    'adds up for the goal %s: shares to one, minutes to the total',
    async (goal) => {
      const { ends, byItem, ...shown } = await evaluated(small, ...dark, '--goal', goal);
      const sum = (values: readonly number[]) => values.reduce((so, value) => so + value, 0);
      expect(shown.rightFinding + shown.wrongFix + shown.passedOn).toBeCloseTo(1, 9);
      expect(sum(ends.map(({ probability }) => probability))).toBeCloseTo(1, 9);
      expect(sum(byItem.map(({ minutes }) => minutes))).toBeCloseTo(shown.expectedMinutes, 9);
    },
  );

  it('names the findings that no test on the way tells apart', async () => {
    const document = smallDocument();
    const { 'panel-dead': dead, ...others } = document.findings;
    const alike = written(folder, 'alike.tree.json', {
      ...document,
      findings: {
        ...others,
        'panel-dead': dead,
        'joint-open': { ...dead, title: 'Joint open, seen as panel' },
      },
    });
    const argv = [...dark, '--goal', 'isolate'];
    expect((await evaluated(small, ...argv)).ambiguityGroups).toEqual([]);
    expect((await evaluated(alike, ...argv)).ambiguityGroups).toEqual([['joint-open', 'panel-dead']]);
    expect(spawned('evaluate', alike, ...argv).stdout).toContain(
      'Findings that no test on the way tells apart\n  joint-open, panel-dead\n',
    );
  });

  it('counts parts at price x 60 / rate minutes for every remedy that is done', async () => {
    const without = await evaluated(small, ...dark);
    const rated = await evaluated(small, ...dark, '--rate', '45');
    const remedies = without.byItem.filter(({ kind }) => kind === 'remedy');
    expect(remedies.length).toBeGreaterThan(3);
    for (const { id, made, minutes } of remedies) {
      const same = rated.byItem.find((item) => item.kind === 'remedy' && item.id === id);
      expect(same?.minutes).toBeCloseTo(minutes + made * ((1.5 * 60) / 45), 9);
    }
  });

  it('prints the figures, the ends, and the minutes by item with the largest first', () => {
    const { stdout, status } = spawned('evaluate', small, ...dark, '--goal', 'isolate');
    const shown = evaluate({ model, symptom: 'dark-screen', goal: 'isolate', rate: null });
    expect(stdout).toContain(`${shown.expectedMinutes.toFixed(1)}  minutes expected`);
    const [end] = shown.ends;
    expect(stdout).toContain(`${(100 * (end?.probability ?? 0)).toFixed(1)} %  ${end?.finding ?? ''}: `);
    const items = stdout.slice(stdout.indexOf('Minutes expected, by what is done')).match(/^ *[\d.]+(?= )/gm);
    const minutes = (items ?? []).map(Number);
    expect(minutes).toHaveLength(shown.byItem.length);
    expect(minutes).toEqual([...minutes].sort((a, b) => b - a));
    expect(status).toBe(0);
  });

  it('says of a symptom without a path that it has none and what to ask instead, with status 1', async () => {
    const document = smallDocument();
    const pathless = written(folder, 'pathless.tree.json', {
      ...document,
      symptoms: { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 3, 'volume-down': 2 } } },
      findings: Object.fromEntries(
        Object.entries(document.findings).map(([id, { otherwise: _, ...one }]) => [id, one]),
      ),
    });
    const { status, json, text } = await run('evaluate', pathless, '--symptom', 'no-sound');
    expect(json).toMatchObject({ error: { code: 'NO_PATH', message: expect.stringContaining('no-sound') } });
    expect(text).toMatch(/plan.*propose/);
    expect(status).toBe(1);
  });

  it.each([
    [[], '--symptom is missing'],
    [['--symptom', 'constructor'], 'no symptom "constructor"'],
    [[...dark, '--goal', 'fixed'], 'no goal "fixed"'],
    [[...dark, '--rate', '0'], '--rate 0'],
    [[...dark, '--rate=-1'], '--rate -1'],
    [[...dark, '--method', 'exact'], '--method'],
    [[...dark, '--db', join(folder, 'no-shop.sqlite')], 'no database'],
    [[...dark, small], 'One FILE'],
  ])('refuses %j, saying what is wrong and what to write, with status 2', async (argv, named) => {
    const { status, json, text } = await run('evaluate', small, ...argv);
    expect(text).toContain(named);
    expect(json).toMatchObject({ error: { code: 'WRONG_USE', help: expect.stringMatching(/\w/) } });
    expect(status).toBe(2);
  });
});

describe('evaluate on a shop’s records', () => {
  const shop = join(folder, 'shop.sqlite');
  beforeAll(() => shopWithRate(shop, 30), 120_000);

  it('evaluates with the shop’s history and hourly rate', async () => {
    const opened = openRecords({ file: shop });
    if (!opened.ok) throw new Error(opened.message);
    const history = opened.records.historyOf('kw1-panel');
    await opened.records.close();
    const known = compileFaultModel(panelTree, history);
    const argv = ['--symptom', 'no-power-led', '--db', shop];
    const question = { model: known, symptom: 'no-power-led', goal: 'fix' } as const;
    const shown = await evaluated(panel, ...argv);
    expect(shown).toEqual(evaluate({ ...question, rate: 30 }));
    expect(await evaluated(panel, ...argv, '--rate', '90')).toEqual(evaluate({ ...question, rate: 90 }));
    const none = evaluate({ ...question, model: compileFaultModel(panelTree, NO_HISTORY), rate: 30 });
    expect(shown.expectedMinutes).not.toBeCloseTo(none.expectedMinutes, 3);
  });
});
