import { expect, it } from 'vitest';
import fc from 'fast-check';
import { checkTree, type JsonObject } from '../../trees/document/index.ts';
import { applyChanges, clipSchema, copyOf, liveTree, pasteOf } from '../../trees/edit/index.ts';
import { axisOf, findingOf, stepOf, symptomOf, testOf } from '../document/parts.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

type Edit = (document: TreeDocument) => void;

function made(edit: Edit = () => undefined): JsonObject {
  const document = smallDocument();
  edit(document);
  return plain(document);
}

function plain(document: object): JsonObject {
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

/** A tree that has nothing but its title, a symptom without steps, and one test and finding of its own. */
function bare(edit: Edit = () => undefined): JsonObject {
  return made((document) => {
    document.bench = {};
    document.interlocks = [];
    document.tests = { look: { ...testOf(document, 'border'), needs: {} } };
    document.findings = {
      dirty: {
        title: 'Dirty',
        because: 'So it is.',
        remedy: { steps: ['Clean it.'], minutes: 1 },
        expects: { look: 'none' },
      },
    };
    document.symptoms = { dull: { title: 'Dull', steps: {} } };
    edit(document);
  });
}

function pasted(document: JsonObject, clip: ReturnType<typeof copyOf>, symptom: string | null = null) {
  const paste = pasteOf(document, clip, { symptom });
  const applied = applyChanges(document, paste.changes);
  if (!applied.ok) throw new Error(applied.message);
  return { ...paste, document: applied.document as unknown as TreeDocument, json: applied.document };
}

it('a clip is text and back, and other text is no clip', () => {
  const clip = copyOf(made(), ['/findings/joint-open', '/symptoms/no-sound']);
  expect(clipSchema.parse(JSON.parse(JSON.stringify(clip)))).toEqual(clip);
  for (const text of ['""', '{}', '[]', '{"format":"ohmward-clip/2"}'])
    expect(clipSchema.safeParse(JSON.parse(text)).success).toBe(false);
});

it('a step copied within its path stands there anew, its test shared and its branches kept', () => {
  const clip = copyOf(made(), ['/symptoms/dark-screen/steps/look']);
  const { document, selected, notes } = pasted(made(), clip, 'dark-screen');
  expect(selected).toEqual(['/symptoms/dark-screen/steps/look-2']);
  expect(stepOf(document, 'dark-screen', 'look-2')).toEqual(stepOf(smallDocument(), 'dark-screen', 'look'));
  expect(Object.keys(document.tests)).toEqual(Object.keys(smallDocument().tests));
  expect(notes).toEqual([]);
});

it('links among copied steps lead to the copies, and a step of another path is named with its symptom', () => {
  const clip = copyOf(made(), ['/symptoms/dark-screen/steps/supply', '/symptoms/dark-screen/steps/far']);
  const { document } = pasted(made(), clip, 'no-sound');
  expect(stepOf(document, 'no-sound', 'supply').then['good']).toEqual({ go: 'far', weight: 7 });
  expect(stepOf(document, 'no-sound', 'far').then['good']).toEqual({
    go: 'symptom:dark-screen/look',
    weight: 3,
  });
});

it('in another tree a step brings its test, the bench states, their interlock and what opens it', () => {
  const clip = copyOf(made(), ['/symptoms/dark-screen/steps/supply']);
  const { document, json, notes, selected } = pasted(bare(), clip, 'dull');
  expect(selected).toEqual(['/symptoms/dull/steps/supply']);
  expect(symptomOf(document, 'dull').first).toBe('supply');
  expect(stepOf(document, 'dull', 'supply').then).toEqual({});
  expect(Object.keys(document.tests)).toEqual(['look', 'rail-in', 'supply-resistance']);
  expect(Object.keys(document.bench ?? {}).sort()).toEqual(['power', 'shell']);
  expect(document.interlocks).toEqual(smallDocument().interlocks);
  expect(notes).toContain('The test “Supply to ground” comes along.');
  expect(notes.at(-1)).toBe('3 branches lead nowhere yet.');
  expect(referenceErrors(json)).toEqual([]);
});

it('a state that an axis lacks comes with its changeovers and its interlock, and the axis keeps its own', () => {
  const lacking: Edit = (document) => {
    const power = axisOf(smallDocument(), 'power');
    document.bench = { power: { ...power, states: { off: { title: 'Unplugged' } }, changes: [] } };
  };
  const { document, notes } = pasted(bare(lacking), copyOf(made(), ['/tests/tone']));
  expect(Object.keys(axisOf(document, 'power').states)).toEqual(['off', 'on']);
  expect(axisOf(document, 'power').states['off']?.title).toBe('Unplugged');
  expect(axisOf(document, 'power').changes).toEqual(axisOf(smallDocument(), 'power').changes);
  expect(document.interlocks).toEqual(smallDocument().interlocks);
  expect(notes).toContain(
    'The bench state “Off, supply unplugged” it was copied with is “Unplugged” here: check that this is the same.',
  );
});

it('another test of that id stays as it is, and the copy is called otherwise wherever it is named', () => {
  const other: Edit = (document) => (testOf(document, 'rail-in').minutes = 9);
  const clip = copyOf(made(), ['/symptoms/dark-screen/steps/far', '/tests/rail-in']);
  const { document, selected, notes } = pasted(made(other), clip, 'dark-screen');
  expect(testOf(document, 'rail-in').minutes).toBe(9);
  expect(testOf(document, 'rail-in-2').minutes).toBe(0.8);
  expect(testOf(document, 'rail-far-2').results['drop']?.band?.of).toBe('rail-in-2');
  expect(stepOf(document, 'dark-screen', 'far-2').test).toBe('rail-far-2');
  expect(selected).toEqual(['/symptoms/dark-screen/steps/far-2', '/tests/rail-in-2']);
  expect(notes).toContain(
    'Another test has the id rail-in here: the copy of “5 V at the converter” is rail-in-2.',
  );
});

it('what is pasted twice into another tree is shared the second time', () => {
  const other: Edit = (document) => (testOf(document, 'tone').minutes = 9);
  const clip = copyOf(made(), ['/tests/tone']);
  const once = pasted(made(other), clip);
  const twice = pasted(once.json, clip);
  expect(twice.changes).toEqual([]);
  expect(twice.selected).toEqual(['/tests/tone-2']);
});

it('a finding brings its proofs along and leaves out what it says of tests that are not there', () => {
  const { document, notes } = pasted(bare(), copyOf(made(), ['/findings/ribbon-loose']));
  const finding = findingOf(document, 'ribbon-loose');
  expect(finding.prove).toEqual(['border']);
  expect(Object.keys(finding.expects ?? {}).sort()).toEqual(['border', 'supply-resistance']);
  expect(finding).not.toHaveProperty('otherwise');
  expect(document.tests).toHaveProperty('border');
  expect(notes.at(-1)).toBe('4 statements about things that this tree lacks were left out.');
});

it('a symptom comes whole, with its tests, findings and weights, under an id of its own', () => {
  const { document, json, selected, notes } = pasted(
    bare((target) => (target.symptoms['no-sound'] = { title: 'Mute', steps: {} })),
    copyOf(made(), ['/symptoms/no-sound', '/symptoms/no-sound/steps/listen']),
  );
  expect(selected).toEqual(['/symptoms/no-sound-2']);
  expect(symptomOf(document, 'no-sound-2')).toEqual(symptomOf(smallDocument(), 'no-sound'));
  expect(Object.keys(document.findings)).toEqual(['dirty', 'speaker-open', 'volume-down']);
  expect(notes).toContain('Another symptom has the id no-sound here: the copy of “No sound” is no-sound-2.');
  expect(referenceErrors(json)).toEqual([]);
});

it('the pictures that pasted tests show are named', () => {
  const shown: Edit = (document) =>
    (testOf(document, 'tone').picture = { file: 'speaker.svg', points: [{ x: 0.5, y: 0.5, label: 'SP' }] });
  const clip = copyOf(made(shown), ['/tests/tone']);
  expect(clip.pictures).toEqual(['speaker.svg']);
  expect(pasted(bare(), clip).pictures).toEqual(['speaker.svg']);
  expect(pasted(made(shown), clip).pictures).toEqual([]);
});

it('steps without a path to go into are left out, and said so', () => {
  const { changes, notes } = pasted(made(), copyOf(made(), ['/symptoms/dark-screen/steps/look']));
  expect(changes).toEqual([]);
  expect(notes).toEqual(['1 step was left out: no path is shown that it could go into.']);
});

it('whatever is copied from one sound tree into another or itself, all that is pasted names things that are there', () => {
  fc.assert(
    fc.property(
      fc.gen(),
      arbitraryDocument(),
      arbitraryDocument(),
      fc.boolean(),
      (draw, one, other, within) => {
        const from = plain(one);
        const into = within ? from : plain(other);
        const pointers = draw(fc.subarray<string>, partsOf(one), { minLength: 1 });
        const symptom = draw(fc.constantFrom<string[]>, ...Object.keys((within ? one : other).symptoms));
        const { json, selected, notes } = pasted(into, copyOf(from, pointers), symptom);
        expect(referenceErrors(json)).toEqual([]);
        expect(selected.length).toBeGreaterThan(0);
        for (const pointer of selected) expect(partsOf(json as unknown as TreeDocument)).toContain(pointer);
        expect(notes.every((note) => note.endsWith('.') || note.includes('comes along: '))).toBe(true);
      },
    ),
    { numRuns: 150, interruptAfterTimeLimit: 20_000 },
  );
});

function partsOf({ tests, findings, symptoms }: TreeDocument): string[] {
  return [
    ...Object.keys(tests).map((id) => `/tests/${id}`),
    ...Object.keys(findings).map((id) => `/findings/${id}`),
    ...Object.entries(symptoms).flatMap(([id, { steps }]) => [
      `/symptoms/${id}`,
      ...Object.keys(steps ?? {}).map((step) => `/symptoms/${id}/steps/${step}`),
    ]),
  ];
}

/** Errors that a sound tree gets by a paste, but for branches left open. */
function referenceErrors(document: JsonObject): readonly string[] {
  const { tree, blanks } = liveTree(document);
  const rules = /^(?:unknown-|no-path|missing-steps|reserved)/;
  return [...blanks, ...checkTree(tree)]
    .filter(({ severity, rule }) => severity === 'error' && rules.test(rule))
    .map(({ rule, at }) => `${rule} ${at}`);
}
