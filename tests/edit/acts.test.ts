import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTree, pointerOf } from '../../trees/document/index.ts';
import {
  addAxis,
  addFinding,
  addInterlock,
  addResult,
  addState,
  addStep,
  addSymptom,
  addTest,
  applyChanges,
  duplicate,
  link,
  liveTree,
  newId,
  put,
  removalOf,
  setTest,
  unlink,
  type Change,
  type DraftDocument,
  type Made,
} from '../../trees/edit/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallDocument } from '../support/trees.ts';

const small = (): DraftDocument => smallDocument() as unknown as DraftDocument;

function after(document: DraftDocument, changes: readonly Change[]): DraftDocument {
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(applied.message);
  return applied.document;
}

/** From the end of a list, so that the other entries keep their index. */
function lastFirst(one: string, other: string): number {
  return other.localeCompare(one, 'en', { numeric: true });
}

function errorsOf(document: DraftDocument): readonly string[] {
  const { tree, blanks } = liveTree(document);
  return [...blanks, ...checkTree(tree)]
    .filter(({ severity }) => severity === 'error')
    .map(({ rule }) => rule);
}

/** Everything that can be taken out of a document, by pointer. */
function partsOf(document: DraftDocument): readonly string[] {
  const { tests, findings, symptoms, bench, interlocks } = liveTree(document).tree;
  return [
    ...Object.entries(tests).flatMap(([id, { results }]) => [
      ['tests', id],
      ...Object.keys(results).map((result) => ['tests', id, 'results', result]),
    ]),
    ...Object.keys(findings).map((id) => ['findings', id]),
    ...Object.entries(symptoms).flatMap(([id, { steps }]) => [
      ['symptoms', id],
      ...Object.keys(steps).map((step) => ['symptoms', id, 'steps', step]),
    ]),
    ...Object.entries(bench).flatMap(([id, { states, changes }]) => [
      ['bench', id],
      ...Object.keys(states).map((state) => ['bench', id, 'states', state]),
      ...[...changes.keys()].map((index) => ['bench', id, 'changes', index]),
    ]),
    ...[...interlocks.keys()].map((index) => ['interlocks', index]),
  ].map(pointerOf);
}

/** Errors that say that something refers to what is not there. */
const DANGLING = /^(?:unknown-|no-such-|missing-reference)/;

describe('taking parts out of a tree', () => {
  it('leaves nothing that refers to what is gone', () => {
    fc.assert(
      fc.property(arbitraryTree(), fc.array(fc.nat(), { minLength: 1, maxLength: 4 }), (tree, picks) => {
        const document = JSON.parse(JSON.stringify(tree)) as DraftDocument;
        const parts = partsOf(document);
        const pointers = [...new Set(picks.map((pick) => parts[pick % parts.length] ?? ''))];
        const { changes } = removalOf(document, pointers);
        const left = after(document, changes);
        expect(errorsOf(left).filter((rule) => DANGLING.test(rule))).toEqual([]);
        for (const pointer of pointers) {
          if (!pointer.startsWith('/interlocks/') && !pointer.includes('/changes/'))
            expect(partsOf(left)).not.toContain(pointer);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('in one working copy is what comes of it when each part is taken out of a document of its own', () => {
    let several = 0;
    fc.assert(
      fc.property(arbitraryTree(), fc.array(fc.nat(), { minLength: 2, maxLength: 8 }), (tree, picks) => {
        const document = JSON.parse(JSON.stringify(tree)) as DraftDocument;
        const parts = partsOf(document);
        const pointers = [...new Set(picks.map((pick) => parts[pick % parts.length] ?? ''))];
        let oneByOne = document;
        const changes = [...pointers].sort(lastFirst).flatMap((pointer) => {
          const made = removalOf(oneByOne, [pointer]).changes;
          oneByOne = after(oneByOne, made);
          return made;
        });
        several += Number(changes.length > pointers.length);
        const atOnce = removalOf(document, pointers);
        expect(atOnce.changes).toEqual(changes);
        expect(JSON.stringify(after(document, atOnce.changes))).toBe(JSON.stringify(oneByOne));
      }),
      { numRuns: 200 },
    );
    expect(several).toBeGreaterThan(100);
  });

  it('says first what goes with a test', () => {
    const { also } = removalOf(small(), ['/tests/supply-resistance']);
    const said = also.map(({ says }) => says);
    expect(said).toContain('The step of “Dark screen” that makes it goes.');
    expect(said).toContain(
      'The interlock of “Power” to “On, current limit set” goes: it no longer waits for it, and has nothing else.',
    );
    expect(new Set(said).size).toBe(said.length);
    expect(also.length).toBeGreaterThan(1);
    expect(also.every(({ at }) => at.startsWith('/'))).toBe(true);
  });

  it('leaves the branches to a finding open, and its weights out', () => {
    const document = small();
    const { also, changes } = removalOf(document, ['/findings/speaker-open']);
    expect(also.map(({ says }) => says)).toContain(
      'The branch “Silent” of the step “Tone” of “No sound” is left open.',
    );
    const left = after(document, changes);
    expect(JSON.stringify(left)).not.toContain('speaker-open');
  });

  it('shares the rest of what is expected among the results that stay', () => {
    const document = after(
      small(),
      put(small(), ['findings', 'speaker-open', 'expects'], { tone: { heard: 0.5, silent: 0.5 } }),
    );
    const left = after(document, removalOf(document, ['/tests/tone/results/heard']).changes);
    expect(liveTree(left).tree.findings['speaker-open']?.expects).toEqual({ tone: { silent: 1 } });
  });
});

function firstPath(document: DraftDocument) {
  const [found] = Object.entries(liveTree(document).tree.symptoms);
  if (found === undefined) throw new Error('The document has no symptom.');
  const [symptom, { first = '', steps }] = found;
  return { symptom, first, steps };
}

describe('adding parts to a tree', () => {
  const plus = (document: DraftDocument, made: Made | null): DraftDocument =>
    after(document, made?.changes ?? []);

  it('makes a tree from nothing that the checker has only gaps to fill in against', () => {
    let document: DraftDocument = {
      format: 'ohmward-tree/1',
      id: 'new-unit',
      title: 'New unit',
      unit: { family: 'New unit' },
      tests: {},
      findings: {},
      symptoms: {},
    };
    document = plus(document, addSymptom(document, 'No sound'));
    document = plus(document, addTest(document, 'Tone at the jack'));
    document = plus(document, addFinding(document, 'Jack worn'));
    document = plus(document, addFinding(document, 'Speaker open'));
    document = plus(document, addAxis(document, 'Power', 'Off', 'On'));
    document = plus(document, addState(document, 'power', 'On, by its own cells'));
    const step = addStep(document, 'no-sound', 'tone-at-the-jack');
    document = plus(document, step);
    const branch = { symptom: 'no-sound', step: step.id };
    document = after(document, link(document, { ...branch, result: 'faulty' }, 'finding:jack-worn'));
    document = after(document, link(document, { ...branch, result: 'sound' }, 'finding:speaker-open'));
    document = after(
      document,
      addInterlock(
        document,
        { axis: 'power', state: 'on' },
        { test: 'tone-at-the-jack', results: ['sound'] },
      ),
    );
    expect(liveTree(document).tree.symptoms['no-sound']).toMatchObject({
      first: 'tone-at-the-jack',
      // Branches stand in the order of the test's results, however they were made.
      steps: { 'tone-at-the-jack': { then: { sound: {}, faulty: {} } } },
    });
    expect(
      Object.keys(liveTree(document).tree.symptoms['no-sound']?.steps['tone-at-the-jack']?.then ?? {}),
    ).toEqual(['sound', 'faulty']);
    expect(new Set(errorsOf(document))).toEqual(new Set(['empty-text']));
  });

  it('puts a new step into a branch, which goes on where it went', () => {
    const document = small();
    const { symptom, first, steps } = firstPath(document);
    const [result = '', branch] = Object.entries(steps[first]?.then ?? {})[0] ?? [];
    const made = addStep(document, symptom, 'tone', { symptom, step: first, result });
    const then = liveTree(after(document, made.changes)).tree.symptoms[symptom]?.steps;
    expect(then?.[first]?.then[result]).toEqual({ ...branch, go: made.id });
    expect(Object.values(then?.[made.id]?.then ?? {}).map(({ go }) => go)).toEqual([branch?.go]);
  });

  it('keeps of a step’s branches those that its new test has results for', () => {
    const document = small();
    const { symptom, first } = firstPath(document);
    const changed = after(document, setTest(document, symptom, first, 'tone'));
    const step = liveTree(changed).tree.symptoms[symptom]?.steps[first];
    expect(step?.test).toBe('tone');
    const results = Object.keys(smallDocument().tests.tone?.results ?? {});
    expect(results).toEqual(expect.arrayContaining(Object.keys(step?.then ?? {})));
  });

  it('copies a test or finding behind it under an id of its own', () => {
    const document = small();
    const made = duplicate(document, 'tests', 'tone');
    const { tests } = liveTree(plus(document, made)).tree;
    expect(tests[made?.id ?? '']).toEqual({ ...tests.tone, title: `${tests.tone?.title ?? ''}, copy` });
    const keys = Object.keys(tests);
    expect(keys.indexOf(made?.id ?? '')).toBe(keys.indexOf('tone') + 1);
    expect(duplicate(document, 'tests', 'nowhere')).toBeNull();
  });

  it('puts a new result where it is wanted', () => {
    const document = small();
    const made = addResult(document, 'tone', 'Faint', 1);
    expect(Object.keys(liveTree(plus(document, made)).tree.tests.tone?.results ?? {})[1]).toBe('faint');
  });

  it('takes a branch away without its step', () => {
    const document = small();
    const { symptom, first, steps } = firstPath(document);
    const [result = ''] = Object.keys(steps[first]?.then ?? {});
    const left = after(document, unlink(document, { symptom, step: first, result }));
    expect(Object.keys(liveTree(left).tree.symptoms[symptom]?.steps[first]?.then ?? {})).not.toContain(
      result,
    );
  });
});

describe('a new id', () => {
  it('is kebab-case, starts with a letter, and is not taken', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), fc.array(fc.string()), (title, taken) => {
        const id = newId(title, taken, 'test');
        expect(id).toMatch(/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/);
        expect(id.length).toBeLessThanOrEqual(80);
        expect(taken).not.toContain(id);
      }),
    );
    expect(newId('3.3 V rail', [], 'test')).toBe('v-rail');
    expect(newId('Rail, 3.3 V', ['rail-3-3-v'], 'test')).toBe('rail-3-3-v-2');
    expect(newId('Prüfung', [], 'test')).toBe('prufung');
  });
});
