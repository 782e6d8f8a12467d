import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, destination, type Tree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, pathChanges, type DraftDocument } from '../../trees/edit/index.ts';
import {
  evaluate,
  goneWith,
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
        const found = proposedFor(drawn as unknown as DraftDocument, which, 'isolate');
        if (found === null) return;
        expectSoundMixture(found, chosen, counts);
      }),
      { numRuns: 200 },
    );
    // About ten of 200 drawn trees leave something to mix; none at all would mean that nothing was tried.
    expect(counts.mixed).toBeGreaterThan(0);
    expect(counts.refused).toBeLessThanOrEqual(counts.mixed / 4);
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

it('whichever parts are taken, nothing leads no more to a step that something led to, but what others still name', () => {
  let taken = 0;
  fc.assert(
    fc.property(
      arbitraryDocument(),
      fc.nat(9),
      fc.nat(),
      fc.constantFrom<Goal>('isolate', 'fix'),
      (drawn, which, chosen, goal) => {
        const found = proposedFor(drawn as unknown as DraftDocument, which, goal);
        if (found === null) return;
        const { tree, proposed, symptom, parts } = found;
        const some = chosenOf(parts, chosen);
        const mixed = withParts(tree, proposed, symptom, some);
        if (mixed === null) return;
        const lost = unreachedIn(mixed, symptom).filter((id) => !unreachedIn(tree, symptom).includes(id));
        expect(lost.filter((id) => !isNamedElsewhere(mixed, symptom, id))).toEqual([]);
        const out = Object.keys(tree.symptoms[symptom]?.steps ?? {}).filter(
          (id) => !Object.hasOwn(mixed.symptoms[symptom]?.steps ?? {}, id),
        );
        const told = [...goneWith(tree, mixed, symptom, some).values()].flat();
        expect(out).toEqual(expect.arrayContaining([...new Set(told)]));
        const reached = out.filter((id) => !unreachedIn(tree, symptom).includes(id));
        expect(told).toEqual(expect.arrayContaining(reached));
        taken += Number(some.size > 0 && some.size < parts.length);
      },
    ),
    { numRuns: 300 },
  );
  expect(taken).toBeGreaterThan(0);
}, 240_000);

it('a part of what is proposed for a shipped tree takes out the two steps that nothing leads to any more, and is told so', () => {
  const text = readFileSync(`${import.meta.dirname}/../../trees/library/kw1-usb-charge.tree.json`, 'utf8');
  const document = JSON.parse(text) as DraftDocument;
  const symptom = 'runs-hot';
  const which = Object.keys(liveTree(document).tree.symptoms).indexOf(symptom);
  const found = proposedFor(document, which, 'fix');
  if (found === null) throw new Error('Nothing is proposed for the shipped tree any more.');
  const { tree, proposed, parts } = found;
  const some = withNeeds(parts, ['step:input-current']);
  expect(some.size).toBeLessThan(parts.length);
  const mixed = withParts(tree, proposed, symptom, some);
  if (mixed === null) throw new Error('The part cannot stand by itself any more.');
  expect([...goneWith(tree, mixed, symptom, some)]).toEqual([
    ['step:input-current', ['input-rail', 'protected-rail']],
  ]);
  expect(unreachedIn(mixed, symptom)).toEqual([]);
}, 60_000);

/** Steps of a path that the checker says nothing leads to. */
function unreachedIn(tree: Tree, symptom: string): readonly string[] {
  return checkTree(tree).flatMap(({ rule, at }) => {
    const [, , of, , step = ''] = at.split('/');
    return rule === 'step-unreached' && of === symptom ? [step] : [];
  });
}

/** Whether anything that is not reached itself still names a step: another path, a finding, or a step of this path. */
function isNamedElsewhere(tree: Tree, symptom: string, step: string): boolean {
  const names = Object.entries(tree.symptoms).flatMap(([id, { steps }]) =>
    Object.values(steps).flatMap(({ then }) => Object.values(then).map(({ go }) => [go, id] as const)),
  );
  const findings = Object.values(tree.findings).flatMap(({ otherwise = null }) =>
    otherwise === null ? [] : [[otherwise, symptom] as const],
  );
  return [...names, ...findings].some(([go, from]) => {
    const place = destination(go, from);
    return place.kind === 'step' && place.symptom === symptom && place.step === step;
  });
}

function chosenOf(parts: readonly ProposedPart[], chosen: number): ReadonlySet<string> {
  const some = parts.flatMap(({ id }, place) => (((chosen >> (place % 30)) & 1) === 1 ? [id] : []));
  return withNeeds(parts, some);
}

function expectSoundMixture(
  { tree, proposed, symptom, parts }: Proposed,
  chosen: number,
  counts: { mixed: number; refused: number },
): void {
  const taken = chosenOf(parts, chosen);
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
