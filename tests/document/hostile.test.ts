import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { readAndCheck, readTree, type Tree } from '../../trees/document/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument } from '../support/trees.ts';

const SMALL = new TextEncoder().encode(JSON.stringify(smallDocument()));
const RUNS = { numRuns: 400 };

describe('whatever is in the file, reading and checking give a tree or say what is wrong:', () => {
  it('any bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), answers), RUNS);
  });

  it('any text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 400 }), answers), RUNS);
  });

  it('any brackets, quotes and signs of JSON', () => {
    const signs = fc.constantFrom(
      '[',
      ']',
      '{',
      '}',
      '"',
      ':',
      ',',
      '\\',
      '/',
      '*',
      '\n',
      '-',
      '1',
      'e',
      'u',
      'true',
      '\uFEFF',
      '\0',
    );
    fc.assert(
      fc.property(fc.array(signs, { maxLength: 200 }), (pieces) => {
        read(pieces.join(''));
      }),
      RUNS,
    );
  });

  it('any JSON', () => {
    fc.assert(fc.property(fc.json({ maxDepth: 6 }), answers), RUNS);
  });

  it('a sound file with a few bytes changed', () => {
    const change = fc.record({ at: fc.nat({ max: SMALL.length - 1 }), to: fc.nat({ max: 255 }) });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const bytes = SMALL.slice();
        for (const { at, to } of changes) bytes[at] = to;
        read(bytes);
      }),
      RUNS,
    );
  });

  it('a sound file cut off anywhere', () => {
    const cut = fc.nat({ max: SMALL.length - 1 });
    fc.assert(
      fc.property(cut, (end) => {
        expect(read(SMALL.slice(0, end))).toBeNull();
      }),
      RUNS,
    );
  });

  it('a drawn document with one value put in another’s place, ids included', () => {
    const strange = fc.oneof(
      fc.jsonValue({ maxDepth: 2 }),
      fc.constantFrom(
        'constructor',
        '__proto__',
        'finding:constructor',
        'symptom:constructor',
        'step-0',
        'test-0',
        'unlisted',
        -1,
        {},
      ),
    );
    const mutated = fc.tuple(arbitraryDocument(), fc.nat(), fc.nat(), strange, fc.boolean()).map(mutate);
    fc.assert(fc.property(mutated, answers), { numRuns: 600 });
  });
});

/** Holds what is promised of every answer, and gives the tree if there is one. */
function read(source: Uint8Array | string): Tree | null {
  const shaped = readTree(source);
  expect(shaped.tree === null).toBe(shaped.problems.length > 0);
  const checked = readAndCheck(source);
  expect(checked.tree === null).toBe(checked.errors.length > 0);
  for (const problem of [...shaped.problems, ...checked.errors, ...checked.warnings]) {
    expect(problem.rule).toMatch(/^[a-z0-9]+(?:-[a-z0-9]+)*$/);
    expect(problem.at).toMatch(/^(?:\/(?:[^~/]|~[01])*)*$/u);
    expect(problem.message).not.toBe('');
    expect(problem.help).not.toBe('');
  }
  return checked.tree;
}

/** {@link read} for properties, to which an answer of false would be a failure. */
function answers(source: Uint8Array | string): void {
  read(source);
}

function mutate([document, where, from, strange, copy]: [unknown, number, number, unknown, boolean]): string {
  const clone: unknown = JSON.parse(JSON.stringify(document));
  const places = placesIn(clone);
  const target = places[where % places.length];
  const source = places[from % places.length];
  if (target !== undefined)
    target.holder[target.key] = copy ? structuredClone(source?.holder[source.key]) : strange;
  return JSON.stringify(clone);
}

interface Place {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

function placesIn(value: unknown): readonly Place[] {
  if (!isHolder(value)) return [];
  return Object.keys(value).flatMap((key) => [{ holder: value, key }, ...placesIn(value[key])]);
}

function isHolder(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
