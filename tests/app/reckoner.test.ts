import { describe, expect, it } from 'vitest';
import { openAnswering } from '../../app/editor/reckoner/answering.ts';
import { Reckoner } from '../../app/editor/reckoner/reckoner.svelte.ts';
import type { FromReckoner, ToReckoner } from '../../app/editor/reckoner/protocol.ts';
import type { StartReckoner } from '../../app/editor/reckoner/reckoner-thread.ts';
import { compileFaultModel, NO_HISTORY, sortingOf, type History } from '../../trees/belief/index.ts';
import { checkTree, type Tree } from '../../trees/document/index.ts';
import { applyEntry, liveTree, openDraft, type Change, type Draft } from '../../trees/edit/index.ts';
import { evaluate, evaluateTraffic } from '../../trees/plan/index.ts';
import { mustHave } from '../document/parts.ts';
import { smallDocument } from '../support/trees.ts';

const FIGURES = { history: NO_HISTORY, rate: 60 };
const ASK = ['tests', 'tone', 'ask'];
const MINUTES = ['tests', 'border', 'minutes'];
const WEIGHT = ['symptoms', 'dark-screen', 'steps', 'short', 'then', 'clear', 'weight'];
const LIMIT = [
  ['tests', 'rail-in', 'results', 'good', 'band', 'from'],
  ['tests', 'rail-in', 'results', 'low', 'band', 'to'],
];
const GO = ['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'low', 'go'];

describe('the checks of a draft', () => {
  it('are those of the checker after each edit, texts that are blank last', () => {
    const { reckoner, edit, draft } = onBench();
    edit([{ do: 'set', path: ASK, value: '' }]);
    edit([{ do: 'set', path: GO, value: 'finding:nowhere' }]);
    const { tree, blanks } = liveTree(draft().document);
    expect(reckoner.problems.map(({ rule, at }) => [rule, at])).toEqual(
      [...checkTree(tree), ...blanks].map(({ rule, at }) => [rule, at]),
    );
    expect(reckoner.errors.map(({ rule }) => rule)).toEqual(['unknown-finding', 'empty-text']);
  });

  it('come before the costs, and only for the newest of several edits made meanwhile', () => {
    const bench = onBench({ pumps: false });
    bench.pump();
    bench.heard.length = 0;
    bench.edit([{ do: 'set', path: MINUTES, value: 7 }]);
    bench.edit([{ do: 'set', path: MINUTES, value: 70 }]);
    expect(bench.reckoner.checksBehind).toBe(true);
    bench.pump();
    expect(bench.heard.map(({ version }) => version).every((version) => version === 3)).toBe(true);
    const kinds = bench.heard.map(({ kind }) => kind);
    expect(kinds.slice(0, 2)).toEqual(['checks', 'cost']);
    // The units' way is long to tell, so that no cost waits for it.
    expect(kinds.indexOf('traffic')).toBeGreaterThan(kinds.lastIndexOf('cost'));
    // Minutes send no unit another way: what was told of that before is not told again.
    expect(bench.heard.find(({ kind }) => kind === 'traffic')).toMatchObject({ traffic: null });
    expect([bench.reckoner.checksBehind, bench.reckoner.costBehind]).toEqual([false, false]);
  });
});

describe('the cost of a draft', () => {
  it('is the evaluation of the tree as it is, before the last edit, and as published', () => {
    const { reckoner, edit, draft } = onBench();
    const published = liveTree(draft().document).tree;
    edit([{ do: 'set', path: MINUTES, value: 7 }]);
    const before = liveTree(draft().document).tree;
    edit([{ do: 'set', path: MINUTES, value: 70 }]);
    const now = liveTree(draft().document).tree;
    for (const [which, tree] of Object.entries({ now, before, published })) {
      const side = reckoner.costs[which as 'now'];
      expect(side?.isolate.ok === true ? side.isolate.cost.minutes : null).toBeCloseTo(
        minutes(tree, 'isolate'),
        9,
      );
      expect(side?.fix?.ok === true ? side.fix.cost.minutes : null).toBeCloseTo(minutes(tree, 'fix'), 9);
    }
  });

  it('goes by the shop’s history', () => {
    const { reckoner } = onBench();
    const history: History = { ...NO_HISTORY, findings: { 'dark-screen': { 'capacitor-short': 50 } } };
    reckoner.reckonWith({ history, rate: null });
    const { tree } = liveTree(openedDraft().document);
    const expected = evaluate({
      model: compileFaultModel(tree, history),
      symptom: 'dark-screen',
      goal: 'isolate',
      rate: null,
    });
    const found = mustHave(reckoner.costs.now).isolate;
    expect(found.ok && found.cost.minutes).toBeCloseTo(expected.expectedMinutes, 9);
  });

  it('waits for the history as the draft sorts it where a limit has moved, and stays with the shop’s for what is published', () => {
    const history: History = { ...NO_HISTORY, findings: { 'dark-screen': { 'capacitor-short': 50 } } };
    const resorted: History = { ...NO_HISTORY, findings: { 'dark-screen': { 'ribbon-loose': 50 } } };
    const { reckoner, edit, undo, draft } = onBench({ history });
    const minutesBy = (by: History) =>
      evaluate({
        model: compileFaultModel(liveTree(draft().document).tree, by),
        symptom: 'dark-screen',
        goal: 'isolate',
        rate: 60,
      }).expectedMinutes;
    const found = (which: 'now' | 'before' | 'published') => {
      const isolate = reckoner.costs[which]?.isolate;
      return isolate?.ok === true ? isolate.cost.minutes : null;
    };
    const asPublished = minutesBy(history);
    let asked = 0;
    reckoner.onunsorted = () => (asked += 1);
    edit(LIMIT.map((path) => ({ do: 'set', path, value: 4.6 })));
    expect([asked, reckoner.isUnsorted, reckoner.costBehind]).toEqual([1, true, true]);
    expect(reckoner.costs.now).toBeUndefined();
    expect([found('before'), found('published')]).toEqual([asPublished, asPublished]);

    reckoner.sortedAs({ sorting: sortingOf(liveTree(draft().document).tree), history: resorted });
    expect([asked, reckoner.isUnsorted, reckoner.costBehind]).toEqual([1, false, false]);
    expect(found('now')).toBeCloseTo(minutesBy(resorted), 9);
    expect(found('now')).not.toBeCloseTo(minutesBy(history), 3);
    expect([found('before'), found('published')]).toEqual([asPublished, asPublished]);

    // Minutes are sorted by nothing, and both sortings are known from here on.
    edit([{ do: 'set', path: MINUTES, value: 70 }]);
    expect(found('now')).toBeCloseTo(minutesBy(resorted), 9);
    undo();
    undo();
    expect(found('now')).toBeCloseTo(asPublished, 9);
    expect(asked).toBe(1);
  });

  it('is kept as of before while errors are in its way, and there again once they are mended', () => {
    const { reckoner, edit } = onBench();
    const good = mustHave(reckoner.costs.now).isolate;
    edit([{ do: 'set', path: GO, value: 'finding:nowhere' }]);
    expect(reckoner.costs.now?.isolate).toEqual({ ok: false, because: 'errors' });
    expect(reckoner.kept?.cost).toEqual(good.ok ? good.cost : null);
    edit([{ do: 'set', path: GO, value: 'finding:converter-low' }]);
    expect(reckoner.costs.now?.isolate).toEqual(good);
  });

  it('is not in the way of a blank text', () => {
    const { reckoner, edit } = onBench();
    edit([{ do: 'set', path: ASK, value: '' }]);
    expect(reckoner.costs.now?.isolate.ok).toBe(true);
  });

  it('turns to another symptom with its traffic, and is known of all in the totals', () => {
    const { reckoner } = onBench();
    expect(reckoner.traffic?.steps.find(({ step }) => step === 'short')?.probability).toBeCloseTo(1, 9);
    reckoner.show('no-sound');
    expect(reckoner.costs.now?.symptom).toBe('no-sound');
    expect(reckoner.traffic?.steps.find(({ step }) => step === 'listen')?.probability).toBeCloseTo(1, 9);
    expect(reckoner.totals.map(([symptom]) => symptom)).toEqual(['dark-screen', 'no-sound']);
    expect(reckoner.totals[1]?.[1]).toEqual(reckoner.costs.now?.isolate);
  });

  it('has the units’ way of the tree as it is, whatever was answered for versions that are no more', () => {
    const bench = onBench({ pumps: false });
    const weigh = (value: number) => bench.edit([{ do: 'set', path: WEIGHT, value }]);
    const expectTraffic = (symptom: string) => {
      bench.pump();
      const model = compileFaultModel(liveTree(bench.draft().document).tree, NO_HISTORY);
      const { traffic } = evaluateTraffic({ model, symptom, rate: 60 });
      expect(bench.reckoner.traffic).toEqual({ symptom, steps: traffic });
    };
    expectTraffic('dark-screen');
    weigh(40);
    bench.overtake(3);
    bench.edit([{ do: 'set', path: ASK, value: 'Listen.' }]);
    expectTraffic('dark-screen');
    bench.reckoner.show('no-sound');
    bench.overtake(3);
    bench.reckoner.show('dark-screen');
    expectTraffic('dark-screen');
    bench.undo();
    bench.undo();
    expectTraffic('dark-screen');
    bench.edit([{ do: 'set', path: GO, value: 'finding:nowhere' }]);
    bench.pump();
    bench.undo();
    expectTraffic('dark-screen');
    bench.reckoner.show('no-sound');
    expectTraffic('no-sound');
  });

  it('has none before the last edit where no edit stands', () => {
    const { reckoner, edit, undo } = onBench();
    edit([{ do: 'set', path: MINUTES, value: 7 }]);
    expect(reckoner.costs.before).toBeDefined();
    undo();
    expect(reckoner.costs.before).toBeUndefined();
    expect(reckoner.costs.published?.isolate).toEqual(reckoner.costs.now?.isolate);
  });
});

it('a tree whose symptom is shown no more waits for no cost', () => {
  const { reckoner } = onBench();
  reckoner.show(null);
  expect([reckoner.checksBehind, reckoner.costBehind]).toEqual([false, false]);
});

describe('a reckoner in trouble', () => {
  it('says so where its thread cannot be had', () => {
    const { reckoner } = onBench({
      start: () => {
        throw new Error('no threads here');
      },
    });
    expect(reckoner.trouble).toContain('no threads here');
  });

  it('sends the document whole after changes that did not fit, and is well again', () => {
    const { reckoner, edit } = onBench();
    reckoner.edited([{ do: 'remove', path: ['tests', 'not-there'] }]);
    expect(reckoner.trouble).toContain('mirror-out-of-step');
    edit([{ do: 'set', path: MINUTES, value: 7 }]);
    expect(reckoner.trouble).toBe('');
    expect(reckoner.checksBehind).toBe(false);
  });
});

interface Options {
  /** Answers are worked off as soon as anything is sent. */
  readonly pumps?: boolean;
  readonly start?: StartReckoner;
  /** The shop's, sorted by the published tree; where left out there is none, and nothing is sorted. */
  readonly history?: History;
}

/** A draft of the small tree with a reckoner whose thread runs in this one. */
function onBench({ pumps = true, start, history }: Options = {}) {
  let draft = openedDraft();
  const heard: FromReckoner[] = [];
  const answering = openAnswering(() => 0);
  let hear: (answer: FromReckoner) => void = () => undefined;
  const late: FromReckoner[] = [];
  const pump = () => {
    for (const answer of late.splice(0)) hear(structuredClone(answer));
    for (let answer = answering.work(); answer !== 'done'; answer = answering.work()) {
      if (answer === null) continue;
      heard.push(answer);
      hear(structuredClone(answer));
    }
  };
  const inThisThread: StartReckoner = (told) => {
    hear = told;
    const send = (message: ToReckoner) => {
      answering.take(structuredClone(message));
      if (pumps) pump();
    };
    return { send, stop: () => undefined };
  };
  const reckoner = new Reckoner(
    start ?? inThisThread,
    () => ({ document: draft.document, back: draft.undo?.top.changes ?? null }),
    {
      published: draft.baseText,
      figures: history === undefined ? FIGURES : { ...FIGURES, history },
      ...(history !== undefined && {
        sorted: [{ sorting: sortingOf(liveTree(draft.document).tree), history }],
      }),
      symptom: 'dark-screen',
    },
  );
  const enter = (entry: Parameters<typeof applyEntry>[1]) => {
    const edited = applyEntry(draft, entry);
    if (!edited.ok) throw new Error(edited.message);
    ({ draft } = edited);
    reckoner.edited(edited.changes);
  };
  return {
    reckoner,
    heard,
    pump,
    /** Works some answers off that are told only once the window has gone on to another version. */
    overtake: (count: number) => {
      for (let done = 0; done < count; done += 1) {
        const answer = answering.work();
        if (answer !== 'done' && answer !== null) late.push(answer);
      }
    },
    draft: () => draft,
    edit: (changes: readonly Change[]) => enter({ kind: 'edit', what: 'Edit', changes }),
    undo: () => enter({ kind: 'undo' }),
  };
}

function openedDraft(): Draft {
  const opened = openDraft(JSON.stringify(smallDocument()));
  if (!opened.ok) throw new Error(opened.message);
  return opened.draft;
}

function minutes(tree: Tree, goal: 'isolate' | 'fix'): number {
  const model = compileFaultModel(tree, NO_HISTORY);
  return evaluate({ model, symptom: 'dark-screen', goal, rate: 60 }).expectedMinutes;
}
