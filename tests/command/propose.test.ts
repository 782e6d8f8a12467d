import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { evaluate, type Evaluation, type Move } from '../../trees/plan/index.ts';
import { smallDocument, treeOf, type TreeDocument } from '../support/trees.ts';
import { run, scratch, spawned, written } from './command-line.ts';
import { panel, panelTree, shopWithRate } from './shop-with-rate.ts';

interface Shown {
  readonly before: Evaluation | { readonly expectedMinutes: null };
  readonly after: Evaluation;
  readonly gap: number | null;
  readonly document: TreeDocument;
  readonly moves: readonly Move[];
  readonly changed: boolean;
}

const folder = scratch();
const small = written(folder, 'small.tree.json', smallDocument());

async function proposed(file: string, ...argv: readonly string[]): Promise<Shown> {
  const { status, json, text } = await run('propose', file, ...argv);
  expect(status, text).toBe(0);
  return JSON.parse(JSON.stringify(json)) as Shown;
}

/** The small document with sure tests, and a path for no sound that measures the rail before it listens, which tells nothing. */
function wasteful(): TreeDocument {
  const document = smallDocument();
  const { 'speaker-open': open, 'volume-down': down } = document.findings;
  const on = { go: 'listen' };
  return {
    ...document,
    defaults: { reliability: 1, unlisted: 0 },
    findings: {
      ...document.findings,
      'volume-down': { ...down, expects: { ...open?.expects, tone: 'heard' } } as typeof down,
    } as TreeDocument['findings'],
    symptoms: {
      ...document.symptoms,
      'no-sound': {
        title: 'No sound',
        first: 'rail',
        steps: {
          rail: { test: 'rail-in', then: { good: on, low: on, high: on } },
          ...document.symptoms['no-sound']?.steps,
        },
        weights: { 'speaker-open': 3, 'volume-down': 2 },
      },
    },
  };
}

/** {@link wasteful} with nothing but weights for no sound, and no other symptom. */
function pathless(): TreeDocument {
  const document = wasteful();
  const findings = Object.entries(document.findings).map(
    ([id, { otherwise: _, ...finding }]) => [id, finding] as const,
  );
  return {
    ...document,
    findings: Object.fromEntries(findings),
    symptoms: { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 3, 'volume-down': 2 } } },
  };
}

const waste = written(folder, 'wasteful.tree.json', wasteful());
const bare = written(folder, 'pathless.tree.json', pathless());
const isolate = ['--symptom', 'no-sound', '--goal', 'isolate'];
const fix = ['--symptom', 'no-sound', '--goal', 'fix'];

function minutesOf(document: TreeDocument, goal: 'isolate' | 'fix'): number {
  const model = compileFaultModel(treeOf(document), NO_HISTORY);
  return evaluate({ model, symptom: 'no-sound', goal, rate: null }).expectedMinutes;
}

describe('propose', () => {
  it.each([isolate, fix])(
    'leaves out what tells nothing (%s %s %s %s), and what it says of before and after is what the documents cost',
    async (...argv) => {
      const goal = argv.at(-1) === 'fix' ? 'fix' : 'isolate';
      const shown = await proposed(waste, ...argv);
      expect(Object.keys(shown)).toEqual(['before', 'after', 'gap', 'document', 'moves', 'changed']);
      expect(shown).toMatchObject({ changed: true, gap: expect.closeTo(0, 9) });
      const { before, after, moves, document } = shown;
      expect(before.expectedMinutes).toBeCloseTo(minutesOf(wasteful(), goal), 9);
      expect(after.expectedMinutes).toBeCloseTo(minutesOf(document, goal), 9);
      const saved = (before.expectedMinutes ?? Number.NaN) - after.expectedMinutes;
      expect(saved).toBeGreaterThan(0.5);
      expect(moves.reduce((sum, { saves }) => sum + saves, 0)).toBeCloseTo(saved, 4);
      expect(moves).toContainEqual(expect.objectContaining({ kind: 'test', id: 'rail-in' }));
    },
  );

  it('proposes a document that is sound, and in which all but the path and what followed from it is as it was', async () => {
    const { document } = await proposed(waste, ...isolate);
    const { status, json } = await run('check', written(folder, 'proposed.tree.json', document));
    expect(json).toMatchObject({ files: [{ errors: [] }] });
    expect(status).toBe(0);
    const { symptoms, findings, ...rest } = document;
    const { symptoms: symptomsBefore, findings: findingsBefore, ...restBefore } = wasteful();
    expect(rest).toEqual(restBefore);
    expect({ ...symptoms, 'no-sound': null }).toEqual({ ...symptomsBefore, 'no-sound': null });
    for (const [id, finding] of Object.entries(findingsBefore)) {
      expect(findings[id]).toMatchObject(finding);
    }
  });

  it('gives a symptom without a path one, and knows no minutes before it', async () => {
    const { before, after, document, changed, moves } = await proposed(bare, ...isolate);
    expect(before).toEqual({ expectedMinutes: null });
    expect({ changed, moves }).toEqual({ changed: true, moves: [] });
    expect(document.symptoms['no-sound']?.first).toBeDefined();
    expect(after.expectedMinutes).toBeCloseTo(minutesOf(document, 'isolate'), 9);
    expect(after.expectedMinutes).toBeGreaterThan(0);
  });

  it('leaves a tree that it knows nothing better for as it was written', async () => {
    const { document, before, after, moves, changed } = await proposed(small, ...isolate);
    expect(document).toEqual(smallDocument());
    expect(before).toEqual(after);
    expect({ changed, moves }).toEqual({ changed: false, moves: [] });
    expect(spawned('propose', small, ...isolate).stdout).toContain('No better order was found');
  });

  it('names no gap for the fast method, and is no worse than the tree as it is', async () => {
    const { before, after, gap } = await proposed(waste, ...isolate, '--method', 'fast');
    expect(gap).toBeNull();
    expect(after.expectedMinutes).toBeLessThan(before.expectedMinutes ?? Number.NaN);
    const mending = await proposed(waste, ...fix, '--method', 'fast');
    expect(mending.gap).toBeNull();
    expect(mending.after.expectedMinutes).toBeLessThanOrEqual(mending.before.expectedMinutes ?? Number.NaN);
  });

  it('prints before and after side by side, what each thing done saves, and how near the best that is', () => {
    const { stdout, status } = spawned('propose', waste, ...isolate);
    const before = minutesOf(wasteful(), 'isolate').toFixed(1);
    expect(stdout).toMatch(new RegExp(`^ +before +after\n +${before} +\\d+\\.\\d  minutes expected\n`));
    expect(stdout).toMatch(/\n +\d+\.\d\d {2}test rail-in: 5 V at the converter \(1\.00 to 0\.00 times/);
    expect(stdout).toMatch(/\nExact: the best there is\n$/);
    expect(status).toBe(0);
  });
});

describe('propose --out', () => {
  it('writes the document, indented by two and with a newline at its end, and replaces an earlier file whole', async () => {
    const place = join(folder, 'written');
    mkdirSync(place);
    const out = written(place, 'new.tree.json', 'earlier');
    const { document } = await proposed(waste, ...isolate, '--out', out);
    expect(readFileSync(out, 'utf8')).toBe(`${JSON.stringify(document, null, 2)}\n`);
    expect(readdirSync(place)).toEqual(['new.tree.json']);
    expect((await run('evaluate', out, ...isolate)).status).toBe(0);
    expect(spawned('propose', waste, ...isolate, '--out', out).stdout).toContain(`Wrote ${out}.\n`);
  });

  it('refuses the tree document itself, however it is named, and leaves it as it is', async () => {
    const place = join(folder, 'itself');
    mkdirSync(place);
    const file = written(place, 'own.tree.json', wasteful());
    for (const out of [file, join(place, '..', 'itself', 'own.tree.json')]) {
      const { status, json } = await run('propose', file, ...isolate, '--out', out);
      expect(json).toMatchObject({
        error: { code: 'NOT_WRITTEN', message: expect.stringContaining('the tree document itself') },
      });
      expect(status).toBe(1);
    }
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(wasteful());
    expect(readdirSync(place)).toEqual(['own.tree.json']);
  });

  it.each([
    ['a folder', folder, 'it is a folder'],
    ['a file in no folder', join(folder, 'nowhere', 'new.json'), 'ENOENT'],
  ])('says of %s, before anything is worked out, that it cannot be written', async (_, out, reason) => {
    // Exact, without an end and on a large tree: only a refusal beforehand comes back at once.
    const large = ['--symptom', 'dark-screen', '--goal', 'isolate', '--seconds', '86400'];
    const { status, json } = await run('propose', panel, ...large, '--out', out);
    expect(json).toMatchObject({
      error: {
        code: 'NOT_WRITTEN',
        message: expect.stringContaining(reason),
        help: expect.stringMatching(/\w/),
      },
    });
    expect(status).toBe(1);
  });
});

describe('propose on a shop’s records', () => {
  const shop = join(folder, 'shop.sqlite');
  beforeAll(() => shopWithRate(shop, 30), 120_000);

  it('weighs both paths with the shop’s history and hourly rate', async () => {
    const opened = openRecords({ file: shop });
    if (!opened.ok) throw new Error(opened.message);
    const history = opened.records.historyOf('kw1-panel');
    await opened.records.close();
    const large = ['--symptom', 'no-power-led', '--goal', 'fix', '--method', 'fast', '--db', shop];
    const { before } = await proposed(panel, ...large);
    const question = { symptom: 'no-power-led', goal: 'fix', rate: 30 } as const;
    expect(before).toEqual(evaluate({ ...question, model: compileFaultModel(panelTree, history) }));
    const none = evaluate({ ...question, model: compileFaultModel(panelTree, NO_HISTORY) });
    expect(before.expectedMinutes).not.toBeCloseTo(none.expectedMinutes, 3);
  });
});

describe('propose, asked in a wrong way', () => {
  it.each([
    [['--goal', 'fix'], '--symptom is missing'],
    [['--symptom', 'constructor', '--goal', 'fix'], 'no symptom "constructor"'],
    [['--symptom', 'no-sound'], '--goal is missing'],
    [['--symptom', 'no-sound', '--goal', 'best'], 'no goal "best"'],
    [[...fix, '--method', 'slow'], 'no method "slow"'],
    [[...fix, '--rate', '0'], '--rate 0'],
    [[...fix, '--rate=-1'], '--rate -1'],
    [[...fix, '--seconds', 'soon'], '--seconds soon'],
    [[...fix, '--given', 'tone=silent'], '--given'],
    [[...fix, '--db', join(folder, 'no-shop.sqlite')], 'no database'],
    [[...fix, small], 'One FILE'],
  ])(
    'refuses %j, saying what is wrong and what to write, with status 2, and writes nothing',
    async (argv, named) => {
      const { status, json, text } = await run('propose', small, ...argv, '--out', join(folder, 'none.json'));
      expect(text).toContain(named);
      expect(json).toMatchObject({ error: { code: 'WRONG_USE', help: expect.stringMatching(/\w/) } });
      expect(readdirSync(folder)).not.toContain('none.json');
      expect(status).toBe(2);
    },
  );
});
