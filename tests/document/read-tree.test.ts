import { describe, expect, it } from 'vitest';
import { readTree } from '../../trees/document/index.ts';
import { smallDocument } from '../support/trees.ts';

const SMALL = JSON.stringify(smallDocument());

/** The small document's text with one piece replaced, which must be in it. */
function smallWith(piece: string, by: string): string {
  if (!SMALL.includes(piece)) throw new Error(`The small document has no ${piece}`);
  return SMALL.replace(piece, by);
}

function outline(source: string | Uint8Array): readonly string[] {
  return readTree(source).problems.map(({ rule, at }) => `${rule} ${at}`);
}

describe('a sound file', () => {
  it('is read with every default filled in', () => {
    const { tree, problems } = readTree(new TextEncoder().encode(SMALL));
    expect(problems).toEqual([]);
    expect(tree?.defaults).toEqual({
      strength: 10,
      reliability: 0.97,
      unlisted: 0.02,
      fixRate: 0.95,
      escalate: 60,
      settled: 0.95,
    });
    expect(tree?.symptoms['dark-screen']?.steps['look-again']?.then['good']?.weight).toBe(1);
    expect(tree?.tests['tone']?.cautions).toEqual([]);
  });

  it('may begin with a byte order mark', () => {
    expect(outline(`\uFEFF${SMALL}`)).toEqual([]);
    expect(outline(new TextEncoder().encode(`\uFEFF${SMALL}`))).toEqual([]);
  });

  it('may have line breaks and tabs in its texts', () => {
    expect(outline(smallWith('"Look at the picture."', '"First this.\\n\\tThen that."'))).toEqual([]);
  });

  it('gives records that look up nothing but their own ids', () => {
    const { tree } = readTree(SMALL);
    const records = [
      tree?.tests,
      tree?.findings,
      tree?.bench,
      tree?.tests['tone']?.needs,
      tree?.tests['tone']?.results,
    ];
    for (const record of records) {
      expect(record).not.toBeUndefined();
      expect(record?.['constructor']).toBeUndefined();
      expect(record?.['to-string']).toBeUndefined();
    }
  });

  it('may use words of the language’s own as ids', () => {
    const { tree, problems } = readTree(smallWith('"rail-far":{"title"', '"constructor":{"title"'));
    expect(problems).toEqual([]);
    expect(tree?.tests['constructor']?.title).toBe('5 V at the panel');
  });

  it('keeps the order of results, the first of which is a sound unit’s', () => {
    expect(Object.keys(readTree(SMALL).tree?.tests['rail-in']?.results ?? {})).toEqual([
      'good',
      'low',
      'high',
    ]);
  });
});

describe('a file that is not JSON', () => {
  it.each([
    ['empty', '', 'empty '],
    ['blank', ' \n ', 'empty '],
    ['cut off', SMALL.slice(0, SMALL.indexOf('"minutes":0.4')), 'syntax /bench/power/changes/0'],
    ['with a comment', smallWith('"bench":', '/* how it stands */"bench":'), 'syntax '],
    ['with a trailing comma', smallWith('"boards":["A1"]', '"boards":["A1",]'), 'syntax /unit/boards/1'],
    ['with single quotes', smallWith('"A1"', "'A1'"), 'syntax /unit/boards'],
    ['with a bare NaN', smallWith('"minutes":0.4', '"minutes":NaN'), 'syntax /bench/power/changes/0/minutes'],
    ['with an unfinished text', smallWith('"A1"', '"A1'), 'syntax /unit/boards/0'],
    ['with a raw control character', smallWith('"A1"', '"A\u0001"'), 'syntax /unit/boards'],
    ['with two documents', `${SMALL}${SMALL}`, 'syntax '],
    ['nested too deep', '['.repeat(100_000), `too-deep ${'/0'.repeat(64)}`],
    ['nested too deep by objects', '{"a":'.repeat(100_000), `too-deep ${'/a'.repeat(64)}`],
  ])('%s is one problem at the innermost place reached', (_, text, problem) => {
    expect(outline(text)).toEqual([problem]);
    expect(readTree(text).tree).toBeNull();
  });

  it.each([
    ['two bare words', '{"a": oops, "b": nope}', ['syntax /a', 'syntax /b']],
    ['two trailing commas', '{"a":[1,],\n}', ['syntax /a/1', 'syntax ']],
    ['missing commas', '{"a":[1 2 3]}', ['syntax /a/0', 'syntax /a/1']],
    [
      'an unclosed text, then a comment two lines on',
      '{\n"a": "b,\n"c": 1,\n/* d */ "e": 2 }',
      ['syntax /a', 'syntax ', 'syntax '],
    ],
    ['a bare word and a name twice', '{"a": oops, "b": 1, "b": 2}', ['syntax /a', 'duplicate-key /b']],
    [
      'a comment before too deep nesting',
      `/*"*/${'['.repeat(100_000)}`,
      ['syntax ', `too-deep ${'/0'.repeat(64)}`],
    ],
    [
      'an unfinished text before too deep nesting',
      `{"a":"\n${'['.repeat(100_000)}`,
      ['syntax /a', 'syntax ', 'syntax '],
    ],
  ])('with %s has every break reported, and none twice', (_, text, problems) => {
    expect(outline(text)).toEqual(problems);
  });

  it('with more than 200 breaks is given up there, which is said', () => {
    const { problems } = readTree(`[${'oops,'.repeat(1000)}1]`);
    expect(problems).toHaveLength(201);
    expect(problems.at(-1)).toMatchObject({ rule: 'too-broken' });
  });

  it('has line and column in the message', () => {
    expect(readTree('{\n  "format": oops\n}').problems[0]?.message).toMatch(/^Line 2, column 13: /);
  });

  it.each([
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x7b, 0x00]), 1],
    [
      'a stray byte',
      new TextEncoder().encode('{\n"a": "?"}').map((byte) => (byte === 0x3f ? 0xc3 : byte)),
      2,
    ],
  ])('%s is not UTF-8, and the line is said', (_, bytes, line) => {
    const { problems } = readTree(bytes);
    expect(problems.map(({ rule }) => rule)).toEqual(['not-utf8']);
    expect(problems[0]?.message).toContain(`Line ${String(line)} `);
  });

  it('of more than 5 MiB is refused without being read', () => {
    expect(outline(new Uint8Array(5 * 1024 * 1024 + 1))).toEqual(['too-large ']);
    expect(outline(' '.repeat(5 * 1024 * 1024 + 1))).toEqual(['too-large ']);
  });
});

describe('a file that says what parsing would lose', () => {
  it.each([
    [
      'a key twice',
      smallWith('"title":"Shell"', '"title":"Lid","title":"Shell"'),
      'duplicate-key /bench/shell/title',
    ],
    ['an id twice', smallWith('"tone":{', '"border":{'), 'duplicate-key /tests/border'],
    [
      'a key twice, once escaped',
      smallWith('"title":"Shell"', '"t\\u0069tle":"Lid","title":"Shell"'),
      'duplicate-key /bench/shell/title',
    ],
    ['__proto__ as an id', smallWith('"tone":{', '"__proto__":{},"tone":{'), 'unsafe-key /tests/__proto__'],
    [
      '__proto__ as a field',
      smallWith('"boards":', '"__proto__":{"family":"x"},"boards":'),
      'unsafe-key /unit/__proto__',
    ],
    ['half a character', smallWith('"Tone"', '"T\\ud83dne"'), 'lone-surrogate /tests/tone/title'],
    ['a control character', smallWith('"Tone"', '"T\\u0000ne"'), 'control-character /tests/tone/title'],
    [
      'a number beyond doubles',
      smallWith('"minutes":0.4', '"minutes":1e999'),
      'number-too-large /bench/power/changes/0/minutes',
    ],
  ])('%s is one problem there', (_, text, problem) => {
    expect(outline(text)).toEqual([problem]);
    expect(readTree(text).tree).toBeNull();
  });

  it('half a character in a key is reported at the key', () => {
    expect(outline(smallWith('"tone":{', '"to\\udc00ne":{'))).toContain('lone-surrogate /tests/to\udc00ne');
  });
});

describe('a file of the wrong shape', () => {
  it.each([
    ['a list', '[]', 'wrong-type '],
    ['a number', '7', 'wrong-type '],
    ['null', 'null', 'wrong-type '],
    ['another format', smallWith('ohmward-tree/1', 'ohmward-tree/2'), 'wrong-format /format'],
    ['a missing field', smallWith('"minutes":0.4,', ''), 'missing /bench/power/changes/0/minutes'],
    [
      'an axis without changes',
      smallWith('"bench":{', '"bench":{"lid":{"title":"Lid","start":"on","states":{"on":{"title":"On"}}},'),
      'missing /bench/lid/changes',
    ],
    [
      'a picture without points',
      smallWith('"ask":"Listen', '"picture":{"file":"tone.svg"},"ask":"Listen'),
      'missing /tests/tone/picture/points',
    ],
    ['no format', smallWith('"format":"ohmward-tree/1",', ''), 'missing /format'],
    ['no instrument', smallWith('"instrument":"ear",', ''), 'missing /tests/tone/instrument'],
    [
      'no unit of a reading',
      smallWith('{"unit":"ohm"}', '{}'),
      'missing /tests/supply-resistance/reading/unit',
    ],
    ['a list for a text', smallWith('"title":"Tone"', '"title":[]'), 'wrong-type /tests/tone/title'],
    [
      'a list for an id',
      smallWith('"start":"closed"', `"start":[${'1,'.repeat(99)}1]`),
      'wrong-type /bench/shell/start',
    ],
    [
      'an unknown field',
      smallWith('"minutes":0.4,', '"minutes":0.4,"secs":24,'),
      'unknown-field /bench/power/changes/0/secs',
    ],
    [
      'a text for a number',
      smallWith('"minutes":0.4', '"minutes":"0.4"'),
      'wrong-type /bench/power/changes/0/minutes',
    ],
    ['null for a text', smallWith('"title":"Tone"', '"title":null'), 'wrong-type /tests/tone/title'],
    ['an object for a list', smallWith('"boards":["A1"]', '"boards":{}'), 'wrong-type /unit/boards'],
    ['an empty text', smallWith('"title":"Tone"', '"title":""'), 'empty-text /tests/tone/title'],
    [
      'an overlong text',
      smallWith('"title":"Tone"', `"title":"${'x'.repeat(8001)}"`),
      'too-long /tests/tone/title',
    ],
    [
      'a negative time',
      smallWith('"minutes":0.4', '"minutes":-0.4'),
      'out-of-range /bench/power/changes/0/minutes',
    ],
    [
      'a reliability of 0',
      smallWith('"reliability":0.98', '"reliability":0'),
      'out-of-range /tests/rail-in/reliability',
    ],
    [
      'a reliability past 1',
      smallWith('"reliability":0.98', '"reliability":98'),
      'out-of-range /tests/rail-in/reliability',
    ],
    [
      'an unknown instrument',
      smallWith('"instrument":"ear"', '"instrument":"nose"'),
      'not-allowed /tests/tone/instrument',
    ],
    ['a bad id', smallWith('"tone":{', '"Tone":{'), 'bad-id /tests/Tone'],
    ['a bad id with pointer signs', smallWith('"tone":{', '"a/b~c":{'), 'bad-id /tests/a~1b~0c'],
    [
      'a bad id as a value',
      smallWith('"start":"closed"', '"start":"is closed"'),
      'bad-id /bench/shell/start',
    ],
    [
      'a bad place to go',
      smallWith('"go":"supply"', '"go":"symptom:a/b/c"'),
      'bad-go /symptoms/dark-screen/steps/short/then/clear/go',
    ],
    [
      'a bad expected id',
      smallWith('"supply-resistance":"short"', '"supply-resistance":"Short!"'),
      'bad-id /findings/capacitor-short/expects/supply-resistance',
    ],
    [
      'a bad expected share',
      smallWith('"partial":0.7', '"partial":"0.7"'),
      'wrong-type /findings/ribbon-loose/expects/border/partial',
    ],
    [
      'neither id nor shares',
      smallWith('"supply-resistance":"short"', '"supply-resistance":1'),
      'wrong-type /findings/capacitor-short/expects/supply-resistance',
    ],
    [
      'a remedy without steps',
      smallWith('"steps":["Mend it."]', '"steps":[]'),
      'too-few /findings/capacitor-short/remedy/steps',
    ],
    [
      'a picture in a folder',
      smallWith('"ask":"Listen', '"picture":{"file":"../tone.svg","points":[]},"ask":"Listen'),
      'bad-file-name /tests/tone/picture/file',
    ],
  ])('%s is one problem there', (_, text, problem) => {
    expect(outline(text)).toEqual([problem]);
    expect(readTree(text).tree).toBeNull();
  });

  it('has all its problems reported at once, whether of form or of shape', () => {
    const text = smallWith('"minutes":0.4,', '')
      .replace('"Tone"', '"T\\u0000ne"')
      .replace('"start":"closed"', '"start":3');
    expect(outline(text).toSorted()).toEqual([
      'control-character /tests/tone/title',
      'missing /bench/power/changes/0/minutes',
      'wrong-type /bench/shell/start',
    ]);
  });

  it('says what is wrong and what to do in words of our own', () => {
    for (const { message, help } of readTree('{"format":3,"extra":[],"unit":7,"tests":{"A":1}}').problems) {
      expect(`${message} ${help}`).not.toMatch(
        /invalid|expected (?:string|object|number|record)|received|undefined/i,
      );
      expect(message).toMatch(/\.$/);
      expect(help).toMatch(/\.$/);
    }
  });

  it('with more than 500 problems has the first 500 and says how many more there are', () => {
    const many = Array.from({ length: 700 }, (_, place) => `"Bad${String(place)}":{}`).join();
    const { problems } = readTree(smallWith('"tests":{', `"tests":{${many},`));
    expect(problems).toHaveLength(501);
    expect(problems[500]).toMatchObject({
      rule: 'more-problems',
      message: expect.stringMatching(/^There are \d+ more/),
    });
  });

  it('with more entries than any tree has is refused before they are looked at one by one', () => {
    const { problems } = readTree(`{"tests":[${'7,'.repeat(2_000_000)}7]}`);
    expect(problems.map(({ rule }) => rule)).toEqual(['too-many']);
  });
});
