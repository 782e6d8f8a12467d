import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placeWords } from '../../app/editor/desk/place-words.ts';
import { orderProblems } from '../../app/editor/desk/order-problems.ts';
import { sayProblem } from '../../app/editor/desk/problem-words.ts';
import { DEFAULT_FIELDS } from '../../app/editor/form/tree/default-fields.ts';
import { checkTree, pathOf, pointerOf } from '../../trees/document/index.ts';
import { fieldLabel, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

type Edit = (document: TreeDocument) => void;

function draft(edit: Edit = () => undefined): DraftDocument {
  const document = smallDocument();
  edit(document);
  return JSON.parse(JSON.stringify(document)) as DraftDocument;
}

const FORMS = new URL('../../app/editor/form/', import.meta.url);

/** Where the fields of a form’s file stand in the small document: what its `path` and its `remedy` are there. */
const AT: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'tree/TreeForm.svelte': { path: '' },
  'test/TestForm.svelte': { path: '/tests/rail-in' },
  'finding/FindingForm.svelte': { path: '/findings/speaker-open', remedy: '/findings/speaker-open/remedy' },
  'symptom/SymptomForm.svelte': { path: '/symptoms/dead' },
  'axis/AxisForm.svelte': { path: '/bench/power' },
  'axis/Changeover.svelte': { path: '/bench/power/changes/0' },
  'interlock/InterlockForm.svelte': { path: '/interlocks/0' },
};

/** Every field that a form’s source gives a plain label: its place, and the label. */
function fieldsOf(file: string): readonly (readonly [place: readonly string[], label: string])[] {
  const source = readFileSync(new URL(file, FORMS), 'utf8');
  const fields = source.matchAll(
    /<(TextField|NumberField|ChoiceField|TextList)\s+path=\{\[([^\]]*)\]\}\s+label="([^"]+)"/g,
  );
  return [...fields].map(([, kind, keys = '', label = '']) => {
    const place = keys.split(',').flatMap((key) => {
      const spread = /^\s*\.\.\.(\w+)$/.exec(key)?.[1];
      return spread === undefined ? [key.trim().replaceAll("'", '')] : pathOf(AT[file]?.[spread] ?? '');
    });
    return kind === 'TextList' ? [[...place, '1'], `${label} 2`] : [place, label];
  });
}

describe('a problem’s place', () => {
  it('is the part by its title and the field by the form’s label', () => {
    const document = draft();
    const { tree } = liveTree(document);
    const said = (at: string) => placeWords(document, tree, at);
    expect(said('/tests/rail-in/title')).toBe('Test “5 V at the converter”: Title');
    expect(said('/findings/speaker-open/because')).toBe('Finding “Speaker open”: Because');
    expect(said('/findings/speaker-open/remedy/steps/0')).toBe(
      'Finding “Speaker open”: Step 1 of the remedy',
    );
    expect(said('/interlocks/0/because')).toBe('Interlock 1: Because');
    expect(said('/tests/rail-in/results/low/title')).toBe('Test “5 V at the converter”: Result 2');
    expect(said('')).toBe('The tree itself');
  });

  it('tells parts apart that have no titles yet', () => {
    const document = draft(({ tests = {} }) => {
      for (const test of Object.values(tests).slice(0, 2)) test.title = '';
    });
    const { tree, blanks } = liveTree(document);
    expect(blanks.map((problem) => sayProblem(document, tree, problem).where)).toEqual([
      'Test 1, untitled: Title',
      'Test 2, untitled: Title',
    ]);
  });

  it('has the label of every field that the forms’ sources label', () => {
    const document = draft();
    const fields = Object.keys(AT).flatMap(fieldsOf);
    expect(fields.length).toBeGreaterThan(20);
    for (const [place, label] of fields) {
      const said = fieldLabel(document, place) ?? '';
      expect(`${pointerOf(place)} ${said}`).toMatch(new RegExp(`^\\S+ ${label}(?=$| of )`));
    }
    for (const { key, label } of DEFAULT_FIELDS) expect(fieldLabel(document, ['defaults', key])).toBe(label);
    expect(readdirSync(FORMS)).toEqual(
      expect.arrayContaining(['tree', 'test', 'finding', 'symptom', 'axis']),
    );
  });

  it('has words for every text and number that a document holds', () => {
    const document = draft(({ findings = {} }) => {
      Object.assign(findings['speaker-open'] ?? {}, { expects: { 'rail-in': { good: 0.5, low: 0.5 } } });
    });
    const without = leaves(document, []).filter((place) => fieldLabel(document, place) === null);
    expect(without.map(pointerOf)).toEqual(['/format']);
  });
});

function leaves(value: unknown, place: readonly string[]): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [place];
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, [...place, key]));
}

it('problems of where the paths lead stand before texts that are not written yet, and warnings after both', () => {
  const document = draft(({ tests = {}, symptoms = {}, findings = {} }) => {
    for (const test of Object.values(tests)) test.ask = '';
    for (const finding of Object.values(findings)) finding.prove = [];
    for (const { then = {} } of Object.values(symptoms['no-sound']?.steps ?? {}))
      for (const result of Object.keys(then).slice(0, 1)) Reflect.deleteProperty(then, result);
  });
  const { tree, blanks } = liveTree(document);
  const ordered = orderProblems([...blanks, ...checkTree(tree)]).map(({ rule }) => rule);
  expect(ordered[0]).toBe('missing-branch');
  expect(ordered.lastIndexOf('missing-branch')).toBeLessThan(ordered.indexOf('empty-text'));
  expect(ordered.lastIndexOf('empty-text')).toBeLessThan(ordered.indexOf('missing-proof'));
});
