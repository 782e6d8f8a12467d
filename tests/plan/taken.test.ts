import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, type Tree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, pathChanges, type DraftDocument } from '../../trees/edit/index.ts';
import {
  evaluate,
  partsOf,
  propose,
  withNeeds,
  withParts,
  type Goal,
  type ProposedPart,
} from '../../trees/plan/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';

interface Proposed {
  readonly document: DraftDocument;
  readonly tree: Tree;
  readonly proposed: Tree;
  readonly symptom: string;
  readonly parts: readonly ProposedPart[];
}

function proposedFor(document: DraftDocument, which: number, goal: Goal): Proposed | null {
  const { tree } = liveTree(document);
  const symptoms = Object.keys(tree.symptoms);
  const symptom = symptoms[which % symptoms.length] ?? '';
  const model = compileFaultModel(tree, NO_HISTORY);
  const { tree: proposed, changed } = propose({ model, symptom, goal, method: 'fast', rate: 40 });
  return changed ? { document, tree, proposed, symptom, parts: partsOf(tree, proposed, symptom) } : null;
}

describe('parts of a proposal for a drawn tree', () => {
  it('make the proposed tree where all are taken, and leave the tree as it is where none is', () => {
    let changed = 0;
    fc.assert(
      fc.property(arbitraryDocument(), fc.nat(9), fc.constantFrom<Goal>('isolate', 'fix'), (...drawn) => {
        const found = proposedFor(drawn[0] as unknown as DraftDocument, drawn[1], drawn[2]);
        if (found === null) return;
        changed += 1;
        const { tree, proposed, symptom, parts } = found;
        expect(parts.length).toBeGreaterThan(0);
        expect(
          withParts(
            tree,
            proposed,
            symptom,
            parts.map(({ id }) => id),
          ),
        ).toBe(proposed);
        expect(withParts(tree, proposed, symptom, [])).toBe(tree);
      }),
      { numRuns: 120 },
    );
    expect(changed).toBeGreaterThan(15);
  }, 120_000);

  it('make a tree without errors whichever are taken, with the steps taken as they are proposed', () => {
    const counts = { mixed: 0, refused: 0 };
    fc.assert(
      fc.property(arbitraryDocument(), fc.nat(9), fc.nat(), (drawn, which, chosen) => {
        const found = proposedFor(drawn as unknown as DraftDocument, which, 'fix');
        if (found === null) return;
        expectSoundMixture(found, chosen, counts);
      }),
      { numRuns: 200 },
    );
    expect(counts.mixed).toBeGreaterThan(5);
    expect(counts.refused).toBeLessThan(counts.mixed / 4);
  }, 120_000);
});

describe('parts of what is proposed for a shipped tree', () => {
  const text = readFileSync(`${import.meta.dirname}/../../trees/library/kw1-panel.tree.json`, 'utf8');
  const document = JSON.parse(text) as DraftDocument;
  const { tree } = liveTree(document);
  const symptom = 'dark-screen';
  const found = proposedFor(document, Object.keys(tree.symptoms).indexOf(symptom), 'isolate');

  it('can be taken one after another, each a tree without errors with minutes of its own', () => {
    if (found === null) throw new Error('Nothing is proposed for the shipped tree any more.');
    const model = compileFaultModel(tree, NO_HISTORY);
    const minutes = (one: Tree) =>
      evaluate({ model, tree: one, symptom, goal: 'isolate', rate: 40 }).expectedMinutes;
    const taken: string[] = [];
    for (const { id } of found.parts) {
      taken.push(id);
      const mixed = withParts(tree, found.proposed, symptom, taken);
      if (mixed === null) continue;
      expect(checkTree(mixed).filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(minutes(mixed)).toBeGreaterThan(0);
    }
    expect(minutes(found.proposed)).toBeLessThan(minutes(tree));
  }, 60_000);

  it('are written into the document by changes that make just that tree of it', () => {
    if (found === null) throw new Error('Nothing is proposed for the shipped tree any more.');
    const changes = pathChanges(document, found.proposed, symptom);
    const applied = applyChanges(document, changes);
    expect(applied.ok && liveTree(applied.document).tree).toEqual(found.proposed);
    expect(applied.ok && Object.keys(stepsIn(applied.document, symptom))).toEqual(
      Object.keys(found.proposed.symptoms[symptom]?.steps ?? {}),
    );
  });
});

it('a proposal written into a drawn document makes just the proposed tree of it', () => {
  let changed = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.nat(9), (drawn, which) => {
      const found = proposedFor(drawn as unknown as DraftDocument, which, 'fix');
      if (found === null) return;
      changed += 1;
      const applied = applyChanges(
        found.document,
        pathChanges(found.document, found.proposed, found.symptom),
      );
      expect(applied.ok && liveTree(applied.document).tree).toEqual(found.proposed);
    }),
    { numRuns: 120 },
  );
  expect(changed).toBeGreaterThan(10);
}, 120_000);

function expectSoundMixture(
  { tree, proposed, symptom, parts }: Proposed,
  chosen: number,
  counts: { mixed: number; refused: number },
): void {
  const taken = withNeeds(
    parts,
    parts.flatMap(({ id }, place) => (((chosen >> (place % 30)) & 1) === 1 ? [id] : [])),
  );
  if (taken.size === 0 || taken.size === parts.length) return;
  const mixed = withParts(tree, proposed, symptom, taken);
  counts[mixed === null ? 'refused' : 'mixed'] += 1;
  if (mixed === null) return;
  expect(checkTree(mixed).filter(({ severity }) => severity === 'error')).toEqual([]);
  const steps = mixed.symptoms[symptom]?.steps ?? {};
  for (const { id, step } of parts) {
    if (step === null || steps[step] === undefined) continue;
    const from = taken.has(id) ? proposed : tree;
    expect(steps[step]).toEqual(from.symptoms[symptom]?.steps[step]);
  }
}

function stepsIn({ symptoms }: DraftDocument, symptom: string): object {
  const all = symptoms as Readonly<Record<string, Readonly<Record<string, object>>>>;
  return all[symptom]?.['steps'] ?? {};
}
