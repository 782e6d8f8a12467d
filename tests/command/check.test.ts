import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { smallDocument } from '../support/trees.ts';
import { run, scratch, spawned, written } from './command-line.ts';

const folder = scratch();
const sound = written(folder, 'sound.tree.json', smallDocument());

function spoilt() {
  const document = smallDocument();
  const step = document.symptoms['dark-screen']?.steps?.['look'];
  if (step?.then['none'] === undefined) throw new Error('the small document has changed');
  step.then['none'].go = 'finding:nobody-knows';
  return document;
}

describe('check', () => {
  it('finds nothing in a sound document and ends with status 0', async () => {
    const { status, json } = await run('check', sound);
    expect(json).toEqual({ files: [{ file: sound, errors: [], warnings: [] }] });
    expect(status).toBe(0);
  });

  it('names rule, place, what is wrong and what to do, and ends with status 1', async () => {
    const file = written(folder, 'spoilt.tree.json', spoilt());
    const { status, json } = await run('check', file);
    const [found] = (json as { files: { errors: Record<string, string>[] }[] }).files;
    expect(found?.errors).toContainEqual({
      rule: expect.stringMatching(/^[a-z][a-z-]+$/),
      at: '/symptoms/dark-screen/steps/look/then/none/go',
      message: expect.stringContaining('nobody-knows'),
      help: expect.stringMatching(/\w/),
    });
    expect(status).toBe(1);
  });

  it('checks every file that is named, also after one with errors', async () => {
    const broken = written(folder, 'broken.tree.json', '{"format": ');
    const { status, json } = await run('check', broken, sound);
    const { files } = json as { files: { file: string; errors: unknown[] }[] };
    expect(files.map(({ file, errors }) => [file, errors.length > 0])).toEqual([
      [broken, true],
      [sound, false],
    ]);
    expect(status).toBe(1);
  });

  it.each([
    ['a file that is not there', ['check', join(folder, 'nowhere.json')], 'nowhere.json'],
    ['a folder', ['check', folder], folder],
    ['no file', ['check'], 'No file'],
    ['an unknown option', ['check', sound, '--loud'], '--loud'],
    ['an unknown command', ['chekc', sound], 'chekc'],
    ['no command', [], 'No command'],
  ])('says what is wrong with %s and ends with status 2', async (_, argv, named) => {
    const { status, text, json } = await run(...argv);
    expect(text).toContain(named);
    expect(json).toMatchObject({ error: { code: 'WRONG_USE', help: expect.stringMatching(/\w/) } });
    expect(status).toBe(2);
  });
});

describe('the command line as a process', () => {
  it('prints one line of JSON and nothing else, and ends with the status', () => {
    const file = written(folder, 'spoilt.tree.json', spoilt());
    const { stdout, stderr, status } = spawned('check', file, '--json');
    expect(JSON.parse(stdout)).toMatchObject({ files: [{ file }] });
    expect(stderr).toBe('');
    expect(status).toBe(1);
  });

  it('says wrong use on standard error for people, and as JSON for programs', () => {
    const people = spawned('belief', sound);
    expect([people.stdout, people.status]).toEqual(['', 2]);
    expect(people.stderr).toContain('--symptom');
    const programs = spawned('belief', sound, '--json');
    expect(JSON.parse(programs.stdout)).toMatchObject({ error: { code: 'WRONG_USE' } });
    expect(programs.status).toBe(2);
  });

  it('explains itself when asked', () => {
    const { stdout, status } = spawned('--help');
    for (const name of ['check', 'belief', 'walk', 'export', 'demo', 'rebuild', 'review'])
      expect(stdout).toContain(name);
    expect(status).toBe(0);
  });
});
