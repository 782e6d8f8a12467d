import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addFinding,
  addStep,
  addSymptom,
  addTest,
  applyChanges,
  applyEntry,
  exchangeWithAfter,
  exchangeWithBefore,
  link,
  liveTree,
  openDraft,
  textOf,
  type Change,
  type DraftDocument,
} from '../../trees/edit/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';

function after(document: DraftDocument, changes: readonly Change[]): DraftDocument {
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(applied.message);
  return applied.document;
}

/** Where the branches of every step of a path lead, by result. */
function leadsIn(document: DraftDocument, symptom: string): Readonly<Record<string, Record<string, string>>> {
  const steps = liveTree(document).tree.symptoms[symptom]?.steps ?? {};
  return Object.fromEntries(
    Object.entries(steps).map(([id, { then }]) => [
      id,
      Object.fromEntries(Object.entries(then).map(([result, { go }]) => [result, go])),
    ]),
  );
}

function reachedIn(document: DraftDocument, symptom: string): readonly string[] {
  const leads = leadsIn(document, symptom);
  const first = liveTree(document).tree.symptoms[symptom]?.first;
  const reached = new Set(first === undefined ? [] : [first]);
  for (const step of reached)
    for (const go of Object.values(leads[step] ?? {})) if (leads[go] !== undefined) reached.add(go);
  return [...reached].sort();
}

/** A path a → b → c by the sound results, each fault leading to a finding of its own; c’s sound result is open. */
function threeSteps() {
  let document = JSON.parse(
    '{"symptoms":{},"tests":{},"findings":{},"bench":{},"interlocks":[]}',
  ) as DraftDocument;
  const symptom = addSymptom(document, 'No light');
  document = after(document, symptom.changes);
  const steps: string[] = [];
  for (const name of ['a', 'b', 'c']) {
    const test = addTest(document, name);
    document = after(document, test.changes);
    const last = steps.at(-1);
    const [sound = '', fault = ''] = Object.keys(liveTree(document).tree.tests[test.id]?.results ?? {});
    const from = last === undefined ? undefined : { symptom: symptom.id, step: last, result: sound };
    const step = addStep(document, symptom.id, test.id, from);
    document = after(document, step.changes);
    const finding = addFinding(document, `Fault ${name}`);
    document = after(document, finding.changes);
    const branch = { symptom: symptom.id, step: step.id, result: fault };
    document = after(document, link(document, branch, `finding:${finding.id}`));
    steps.push(step.id);
  }
  const [a = '', b = '', c = ''] = steps;
  const [sound = '', fault = ''] = Object.keys(
    Object.values(liveTree(document).tree.tests)[0]?.results ?? {},
  );
  return { document, symptom: symptom.id, a, b, c, sound, fault };
}

describe('a step exchanged with the one before it', () => {
  it('comes first on the path, goes on to that one by its sound result, and all faults lead where they led', () => {
    const { document, symptom, a, b, c, sound, fault } = threeSteps();
    const exchange = exchangeWithBefore(document, symptom, b);
    if (!exchange.ok) throw new Error(exchange.because);
    expect(exchange.earlier).toBe(a);
    const moved = after(document, exchange.changes);
    expect(liveTree(moved).tree.symptoms[symptom]?.first).toBe(b);
    const before = leadsIn(document, symptom);
    const leads = leadsIn(moved, symptom);
    expect(leads[b]?.[sound]).toBe(a);
    expect(leads[a]?.[sound]).toBe(c);
    for (const step of [a, b, c]) expect(leads[step]?.[fault]).toBe(before[step]?.[fault]);
  });

  it('leaves the step that was before it open where it was open itself', () => {
    const { document, symptom, a, b, c, sound } = threeSteps();
    const exchange = exchangeWithBefore(document, symptom, c);
    if (!exchange.ok) throw new Error(exchange.because);
    const leads = leadsIn(after(document, exchange.changes), symptom);
    expect([leads[a]?.[sound], leads[c]?.[sound], leads[b]?.[sound]]).toEqual([c, b, undefined]);
  });

  it('is moved down by the same exchange, and back to the same leads by the other', () => {
    const { document, symptom, a, b } = threeSteps();
    expect(exchangeWithAfter(document, symptom, a)).toEqual(exchangeWithBefore(document, symptom, b));
    const down = exchangeWithAfter(document, symptom, a);
    if (!down.ok) throw new Error(down.because);
    const moved = after(document, down.changes);
    const up = exchangeWithBefore(moved, symptom, a);
    if (!up.ok) throw new Error(up.because);
    const back = after(moved, up.changes);
    expect(leadsIn(back, symptom)).toEqual(leadsIn(document, symptom));
    expect(liveTree(back).tree.symptoms[symptom]?.first).toBe(a);
  });

  it('stays, with the reason, where it is first, come to twice, or leads to several', () => {
    const { document, symptom, a, b, c, fault } = threeSteps();
    expect(exchangeWithBefore(document, symptom, a)).toEqual({
      ok: false,
      because: 'the path starts with it',
    });
    const twice = after(document, link(document, { symptom, step: a, result: fault }, c));
    expect(exchangeWithBefore(twice, symptom, c)).toEqual({
      ok: false,
      because: 'it is come to in more than one way',
    });
    expect(exchangeWithAfter(twice, symptom, a)).toEqual({ ok: false, because: 'it leads to several steps' });
    const back = after(document, link(document, { symptom, step: b, result: fault }, a));
    expect(exchangeWithBefore(back, symptom, b).ok).toBe(false);
  });

  it('leaves in any tree every step reached that was, each result a branch or not as before but one, and is undone to the byte', () => {
    let made = 0;
    fc.assert(
      fc.property(arbitraryTree(), (tree) => {
        const draft = openDraft(`${JSON.stringify(tree, null, 2)}\n`);
        if (!draft.ok) throw new Error('not a document');
        const { document } = draft.draft;
        for (const [symptom, { steps }] of Object.entries(liveTree(document).tree.symptoms))
          for (const step of Object.keys(steps)) {
            const exchange = exchangeWithBefore(document, symptom, step);
            if (!exchange.ok) continue;
            made += 1;
            const edited = applyEntry(draft.draft, { kind: 'edit', what: 'Move', changes: exchange.changes });
            if (!edited.ok) throw new Error(edited.message);
            const leads = leadsIn(edited.draft.document, symptom);
            expect(reachedIn(edited.draft.document, symptom)).toEqual(reachedIn(document, symptom));
            expect(Object.values(leads[step] ?? {})).toContain(exchange.earlier);
            expect(Object.values(leads[exchange.earlier] ?? {})).not.toContain(step);
            const undone = applyEntry(edited.draft, { kind: 'undo' });
            if (!undone.ok) throw new Error(undone.message);
            expect(textOf(undone.draft)).toBe(textOf(draft.draft));
          }
      }),
      { numRuns: 150 },
    );
    expect(made).toBeGreaterThan(20);
  });
});
