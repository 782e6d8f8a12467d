import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { countOf, readAndCheck, readTree } from '../../trees/document/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';
import { axisOf, findingOf, mustHave, stepOf, testOf } from './parts.ts';

type Outline = readonly (readonly [string, string])[];

/** Rules and places of all that is said of a document, in the order of its places. */
function problemsOf(document: unknown): Outline {
  const { errors, warnings } = readAndCheck(JSON.stringify(document));
  return [...errors, ...warnings].map(({ rule, at }) => [rule, at] as const).toSorted(byPlace);
}

function byPlace([ruleA, atA]: readonly [string, string], [ruleB, atB]: readonly [string, string]): number {
  return `${atA} ${ruleA}` < `${atB} ${ruleB}` ? -1 : 1;
}

/** What is said of the small document after a change that may break its shape. */
function afterBreaking(change: (document: TreeDocument) => void): Outline {
  const document = smallDocument();
  change(document);
  return problemsOf(document);
}

/** Puts a value where the format does not allow it. */
function put(holder: object, key: PropertyKey, value: unknown): void {
  Object.assign(holder, { [key]: value });
}

describe('a document of the wrong shape', () => {
  it('has what it means checked in the same go, within the broken entry too', () => {
    const problems = afterBreaking((d) => {
      put(testOf(d, 'tone'), 'minutes', 'long');
      testOf(d, 'tone').needs = { lid: 'open' };
      put(testOf(d, 'rail-in'), 'secs', 48);
      mustHave(testOf(d, 'rail-in').results['low']).band = { to: 4.7 };
      put(d, 'format', undefined);
      stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'listen' };
    });
    expect(problems).toEqual([
      ['missing', '/format'],
      ['loop', '/symptoms/no-sound/steps/listen/then/heard/go'],
      ['band-gap', '/tests/rail-in/results/low/band'],
      ['unknown-field', '/tests/rail-in/secs'],
      ['wrong-type', '/tests/tone/minutes'],
      ['unknown-axis', '/tests/tone/needs/lid'],
    ]);
  });

  it('has warnings that rest on the broken place alone held back, and others given', () => {
    const problems = afterBreaking((d) => {
      testOf(d, 'tone').ask = 'Look at the mains plug.';
      testOf(d, 'border').ask = 'Look at the mains plug.';
      put(testOf(d, 'tone'), 'cautions', 'Mains can kill.');
      d.unit.boards = ['A1', 'A1'];
      d.findings['ribbon-torn'] = findingOf(d, 'panel-dead');
    });
    expect(problems).toEqual([
      ['missing-caution', '/tests/border'],
      ['wrong-type', '/tests/tone/cautions'],
      ['duplicate-entry', '/unit/boards/1'],
    ]);
  });

  it('has its places named by the indices that they have in the file', () => {
    const problems = afterBreaking((d) => {
      const changes = axisOf(d, 'shell').changes;
      const [open, close] = changes;
      put(changes, 0, { from: 7, to: 'open', minutes: 2, say: 'x' });
      changes.push({ from: 'open', to: 'gone', minutes: 1, say: 'x' }, mustHave(close), mustHave(open));
      mustHave(d.interlocks).unshift({ change: {}, until: {}, because: '' });
      put(mustHave(d.interlocks), 0, 7);
      mustHave(d.interlocks?.[1]).until['supply-resistance'] = ['clear', 'Bad', 'fine'];
      findingOf(d, 'panel-dead').prove = ['Bad', 'border', 'heat'];
    });
    expect(problems).toEqual([
      ['wrong-type', '/bench/shell/changes/0/from'],
      ['unknown-state', '/bench/shell/changes/2/to'],
      ['duplicate-change', '/bench/shell/changes/3'],
      ['bad-id', '/findings/panel-dead/prove/0'],
      ['unknown-test', '/findings/panel-dead/prove/2'],
      ['wrong-type', '/interlocks/0'],
      ['bad-id', '/interlocks/1/until/supply-resistance/1'],
      ['unknown-result', '/interlocks/1/until/supply-resistance/2'],
    ]);
  });

  it('has a branch that is missing reported beside one that is broken', () => {
    const problems = afterBreaking((d) => {
      const { then } = stepOf(d, 'dark-screen', 'supply');
      put(mustHave(then['low']), 'go', 'finding:a/b');
      delete then['high'];
    });
    expect(problems).toEqual([
      ['missing-branch', '/symptoms/dark-screen/steps/supply/then'],
      ['bad-go', '/symptoms/dark-screen/steps/supply/then/low/go'],
    ]);
  });

  it('has a name that stands twice reported with what the kept one means', () => {
    const text = JSON.stringify(smallDocument())
      .replace('"title":"Shell"', '"title":"Lid","title":"Shell"')
      .replace('"start":"closed"', '"start":"ajar"')
      .replace('"instrument":"ear"', '"instrument":"ear","instrument":"nose"');
    const { errors } = readAndCheck(text);
    expect(errors.map(({ rule, at }) => [rule, at]).toSorted()).toEqual([
      ['duplicate-key', '/bench/shell/title'],
      ['duplicate-key', '/tests/tone/instrument'],
      ['not-allowed', '/tests/tone/instrument'],
      ['unknown-state', '/bench/shell/start'],
    ]);
  });

  it('has no echoes of the entries that a record standing twice has lost', () => {
    const text = JSON.stringify(smallDocument()).replace(
      '"symptoms":{',
      '"symptoms":{},"tests":{},"symptoms":{',
    );
    expect(readAndCheck(text).errors.map(({ rule, at }) => [rule, at])).toEqual([
      ['duplicate-key', '/tests'],
      ['duplicate-key', '/symptoms'],
    ]);
  });

  it('that is nothing like a tree has only that said', () => {
    expect(problemsOf([])).toEqual([['wrong-type', '']]);
    expect(problemsOf({}).every(([rule]) => rule === 'missing')).toBe(true);
  });

  it('has one problem and no echoes wherever in the small document a value is broken', () => {
    for (const place of placesIn(smallDocument()).keys()) {
      const document = smallDocument();
      const { holder, key, at } = mustHave(placesIn(document)[place]);
      put(holder, key, null);
      expect(problemsOf(document).map(([, where]) => where)).toEqual([at]);
    }
  });

  it('has no gap in the bands reported where the id of a result is no id, nor a lack of results', () => {
    const problems = afterBreaking((d) => {
      const { clear, short } = testOf(d, 'supply-resistance').results;
      testOf(d, 'supply-resistance').results = { clear: mustHave(clear), Short: mustHave(short) };
      findingOf(d, 'capacitor-short').expects = {};
      delete stepOf(d, 'dark-screen', 'short').then['short'];
    });
    expect(problems).toEqual([['bad-id', '/tests/supply-resistance/results/Short']]);
  });
});

describe('whatever is broken in a drawn document,', () => {
  it('nothing is said but of the broken place and what was to be said before', () => {
    const broken = fc.tuple(arbitraryDocument(), fc.nat()).map(([document, where]) => {
      const places = placesIn(document);
      const { holder, key, at } = mustHave(places[where % places.length]);
      const before = problemsOf(document);
      put(holder, key, null);
      return { at, before, after: problemsOf(document) };
    });
    fc.assert(
      fc.property(broken, ({ at, before, after }) => {
        const others = after.filter(([, place]) => place !== at);
        expect(others.length).toBeLessThan(after.length);
        for (const other of others) expect(before).toContainEqual(other);
      }),
      { numRuns: 500 },
    );
  });

  it('all that was said of its errors of meaning is said still, if only words or minutes are broken', () => {
    const ids = fc.constantFrom('nowhere', 'step-0', 'test-0', 'result-0', 'finding:finding-9');
    const changes = fc.array(fc.tuple(fc.nat(), ids), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(arbitraryDocument(), changes, fc.nat(), (document, wrong, where) => {
        for (const [place, id] of wrong) misname(document, place, id);
        const before = problemsOf(document).filter(([rule]) => !ON_THE_WHOLE.has(rule));
        const words = placesIn(document).filter(({ key }) => /^(?:ask|minutes|because|say)$/.test(key));
        const { holder, key } = mustHave(words[where % words.length]);
        put(holder, key, null);
        expect(problemsOf(document)).toEqual(expect.arrayContaining([...before]));
      }),
      { numRuns: 300 },
    );
  });
});

/** Rules about the tree as a whole, which wait until there are no errors. */
const ON_THE_WHOLE = new Set([
  'finding-unreached',
  'step-unreached',
  'test-unused',
  'otherwise-loop',
  'findings-alike',
  'result-unexpected',
  'expectation-against-path',
]);

/** Puts another id in the place of one of a document's, if that leaves its shape whole. */
function misname(document: TreeDocument, where: number, id: string): void {
  const texts = placesIn(document).filter(({ value }) => typeof value === 'string');
  const { holder, key, value } = mustHave(texts[where % texts.length]);
  put(holder, key, id);
  if (readTree(JSON.stringify(document)).tree === null) put(holder, key, value);
}

describe('the count of problems', () => {
  it('is that of all there are, though only the first 500 are listed', () => {
    const document = smallDocument();
    for (let place = 0; place < 700; place += 1)
      document.tests[`Bad${String(place)}`] = testOf(document, 'tone');
    mustHave(document.interlocks).push({ change: { lid: 'on' }, until: { tone: ['heard'] }, because: 'x' });
    const { errors, warnings } = readAndCheck(JSON.stringify(document));
    expect(errors).toHaveLength(501);
    expect(errors.at(-1)).toMatchObject({ severity: 'error', message: 'There are 201 more errors.' });
    expect(countOf(errors)).toBe(701);
    expect(countOf(warnings)).toBe(0);
  });

  it('says of a single one past the limit that it is one', () => {
    const document = smallDocument();
    for (let place = 0; place < 501; place += 1) put(document, `extra-${String(place)}`, 1);
    expect(readAndCheck(JSON.stringify(document)).errors.at(-1)?.message).toBe('There is 1 more error.');
  });
});

interface Place {
  readonly at: string;
  readonly holder: object;
  readonly key: string;
  readonly value: unknown;
}

function placesIn(value: unknown, above = ''): readonly Place[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const at = `${above}/${key}`;
    return [{ at, holder: value, key, value: inner }, ...placesIn(inner, at)];
  });
}
