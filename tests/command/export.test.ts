import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { toScxml } from '../../trees/chart/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';
import { run, scratch, spawned, written } from './command-line.ts';

interface XmlParser {
  onerror: (error: Error) => void;
  onopentag: (tag: { readonly name: string }) => void;
  write(text: string): { close(): void };
}

// The XML parser that the SCXML interpreter of tests/chart brings along.
const interpreter = createRequire(import.meta.url).resolve('@scion-scxml/scxml');
const { parser } = createRequire(interpreter)('@scion-scxml/sax') as {
  parser(strict: boolean): XmlParser;
};

/** The name of the root element. Throws where the text is not well-formed XML. */
function rootOf(text: string): string | undefined {
  const names: string[] = [];
  const xml = parser(true);
  xml.onerror = (error) => {
    throw error;
  };
  xml.onopentag = ({ name }) => names.push(name);
  xml.write(text).close();
  return names[0];
}

const folder = scratch();
const sound = written(folder, 'sound.tree.json', smallDocument());
const isPosix = process.platform !== 'win32';

/** A folder of its own, with a file that an earlier export left there. */
function withEarlier(name: string) {
  const place = join(folder, name);
  mkdirSync(place);
  return { place, out: written(place, 'chart.scxml', 'earlier') };
}

/** What stands in a folder, by name. */
function held(place: string) {
  return Object.fromEntries(
    readdirSync(place).map((name) => [name, readFileSync(join(place, name), 'utf8')]),
  );
}

describe('export', () => {
  it('writes the chart of the whole tree as well-formed XML, says how large it is, and ends with status 0', async () => {
    const out = join(folder, 'new.scxml');
    const { status, json } = await run('export', sound, '--scxml', out);
    const text = readFileSync(out, 'utf8');
    expect(rootOf(text)).toBe('scxml');
    expect(() => rootOf(text.slice(0, -12))).toThrow('Unclosed root tag');
    expect(text).toBe(toScxml(smallTree()));
    expect(json).toEqual({ file: sound, scxml: out, bytes: statSync(out).size });
    expect(status).toBe(0);
  });

  it.each(['kw1-panel', 'kw1-usb-charge'])('writes the shipped tree %s as well-formed XML', async (name) => {
    const file = fileURLToPath(new URL(`../../trees/library/${name}.tree.json`, import.meta.url));
    const out = join(folder, `${name}.scxml`);
    const { status } = await run('export', file, '--scxml', out);
    const text = readFileSync(out, 'utf8');
    expect(rootOf(text)).toBe('scxml');
    const symptoms = Object.keys(readAndCheck(readFileSync(file)).tree?.symptoms ?? {});
    expect(symptoms.length).toBeGreaterThan(1);
    for (const symptom of symptoms) expect(text).toContain(`event="symptom.${symptom}"`);
    expect(status).toBe(0);
  });

  it('replaces an earlier file whole, keeps its mode, and leaves nothing else behind', async () => {
    const { place, out } = withEarlier('replaced');
    chmodSync(out, 0o640);
    const { status } = await run('export', sound, '--scxml', out);
    expect(held(place)).toEqual({ 'chart.scxml': toScxml(smallTree()) });
    if (isPosix) expect(statSync(out).mode & 0o777).toBe(0o640);
    expect(status).toBe(0);
  });

  it.runIf(isPosix)(
    'keeps an earlier file, and nothing unfinished, where there is no room for the new one',
    () => {
      const { place, out } = withEarlier('no-room');
      const entry = fileURLToPath(new URL('../../main/command/ohmward.ts', import.meta.url));
      // A limit on the size of files stands in for a full disk: the system breaks the write off midway all the same.
      const limited = ['-c', 'ulimit -f 8 && exec "$@"', 'sh', process.execPath, entry];
      const { status, stdout } = spawnSync('sh', [...limited, 'export', sound, '--scxml', out], {
        encoding: 'utf8',
      });
      expect(stdout).toContain(`${out} cannot be written: EFBIG: file too large.`);
      expect(held(place)).toEqual({ 'chart.scxml': 'earlier' });
      expect(status).toBe(1);
    },
  );

  it('refuses to write over the tree document itself', async () => {
    const { place } = withEarlier('itself');
    const file = written(place, 'own.tree.json', smallDocument());
    const { status, json } = await run(
      'export',
      file,
      '--scxml',
      join(place, '..', 'itself', 'own.tree.json'),
    );
    expect(json).toMatchObject({ error: { message: expect.stringContaining('the tree document itself') } });
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(smallDocument());
    expect(status).toBe(1);
  });

  const onPosix = [
    ['a file under a file', join(sound, 'chart.scxml'), 'ENOTDIR: not a directory.'],
    ['a full device', '/dev/full', 'it is a device'],
    ['the standard output', '/dev/stdout', 'it is a link'],
  ].filter(([, out = '']) => isPosix && (existsSync(out) || !out.startsWith('/dev/')));
  it.each([
    ['a folder', folder, 'it is a folder'],
    ['a file in no folder', join(folder, 'nowhere', 'chart.scxml'), 'ENOENT: no such file or directory.'],
    ...onPosix,
  ])(
    'says that %s cannot be written, why, and what to do, and ends with status 1',
    async (_, out, reason) => {
      const { status, json } = await run('export', sound, '--scxml', out);
      expect(json).toEqual({
        error: {
          code: 'NOT_WRITTEN',
          message: expect.stringContaining(`${out} cannot be written: `),
          help: expect.stringMatching(/\w/),
        },
      });
      expect(json).toMatchObject({ error: { message: expect.stringContaining(reason) } });
      expect(status).toBe(1);
    },
  );

  it.runIf(isPosix)('leaves a link, and the file that it leads to, as they are', async () => {
    const { place, out } = withEarlier('linked');
    symlinkSync(out, join(place, 'link.scxml'));
    const { status, text } = await run('export', sound, '--scxml', join(place, 'link.scxml'));
    expect(text).toContain('it is a link, not a file');
    expect(held(place)).toEqual({ 'chart.scxml': 'earlier', 'link.scxml': 'earlier' });
    expect(status).toBe(1);
  });

  // The superuser may write to any file.
  it.runIf(isPosix && process.getuid?.() !== 0)('leaves a file that is protected from writing', async () => {
    const { place, out } = withEarlier('protected');
    chmodSync(out, 0o444);
    const { status, text } = await run('export', sound, '--scxml', out);
    expect(text).toContain(`${out} cannot be written: EACCES: permission denied.`);
    expect(held(place)).toEqual({ 'chart.scxml': 'earlier' });
    expect(status).toBe(1);
  });

  it.each([
    ['no OUT', [sound]],
    ['no FILE', ['--scxml', join(folder, 'none.scxml')]],
    ['two files', [sound, sound, '--scxml', join(folder, 'none.scxml')]],
    ['a file that is not there', [join(folder, 'gone.json'), '--scxml', join(folder, 'none.scxml')]],
  ])('says what is wrong with %s, writes nothing and ends with status 2', async (_, argv) => {
    const { status, json } = await run('export', ...argv);
    expect(json).toMatchObject({ error: { code: 'WRONG_USE', help: expect.stringMatching(/\w/) } });
    expect(readdirSync(folder)).not.toContain('none.scxml');
    expect(status).toBe(2);
  });

  it('lists the errors of a tree that cannot be walked, writes nothing and ends with status 1', () => {
    const { place, out } = withEarlier('spoilt');
    const document = smallDocument();
    document.symptoms['no-sound'] = { title: 'No sound', first: 'nowhere', steps: {} };
    const file = written(folder, 'spoilt.tree.json', document);
    const { status, stdout } = spawned('export', file, '--scxml', out, '--json');
    expect(JSON.parse(stdout)).toMatchObject({
      files: [
        {
          file,
          errors: expect.arrayContaining([expect.objectContaining({ at: '/symptoms/no-sound/first' })]),
        },
      ],
    });
    expect(held(place)).toEqual({ 'chart.scxml': 'earlier' });
    expect(status).toBe(1);
  });
});
