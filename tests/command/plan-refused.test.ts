import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { smallDocument } from '../support/trees.ts';
import { run, scratch, written } from './command-line.ts';

const folder = scratch();
const small = written(folder, 'small.tree.json', smallDocument());
const fix = ['--symptom', 'dark-screen', '--goal', 'fix'];

describe('plan, asked in a wrong way', () => {
  it.each([
    [['--symptom', 'dark-screen'], '--goal is missing'],
    [['--symptom', 'dark-screen', '--goal', 'mend'], 'no goal "mend"'],
    [['--goal', 'fix'], '--symptom is missing'],
    [['--symptom', '__proto__', '--goal', 'fix'], 'no symptom "__proto__"'],
    [[...fix, '--method', 'quick'], 'no method "quick"'],
    [[...fix, '--rate', '0'], '--rate 0 is not an hourly rate'],
    [[...fix, '--rate=-5'], '--rate -5 is not an hourly rate'],
    [[...fix, '--rate', '-5'], '--rate'],
    [[...fix, '--rate', '1e3'], '--rate 1e3'],
    [[...fix, '--rate', 'NaN'], '--rate NaN'],
    [[...fix, '--rate', '9'.repeat(400)], '--rate 999'],
    [[...fix, '--rate', ''], '--rate'],
    [[...fix, '--seconds=-1'], '--seconds -1'],
    [[...fix, '--seconds', 'Infinity'], '--seconds Infinity'],
    [[...fix, '--seconds', '86401'], '--seconds 86401'],
    [[...fix, '--at', 'shell'], '--at shell is not understood'],
    [[...fix, '--at', '=open'], '--at =open is not understood'],
    [[...fix, '--at', 'lid=open'], 'Its axes are: power, shell.'],
    [[...fix, '--at', 'constructor=open'], 'no axis "constructor"'],
    [[...fix, '--at', '__proto__=open'], 'no axis "__proto__"'],
    [[...fix, '--at', 'shell=ajar'], 'Its states are: closed, open.'],
    [[...fix, '--at', 'shell=toString'], 'no state "toString"'],
    [[...fix, '--at', 'shell=open', '--at', 'shell=closed'], 'twice'],
    [[...fix, '--at', 'power=on'], '--given supply-resistance=clear'],
    [[...fix, '--at', 'power=on', '--given', 'supply-resistance=0.8'], 'cannot stand at power=on'],
    [[...fix, '--given', 'rail-far=4.7'], 'rail-in'],
    [[...fix, '--given', 'constructor=x'], 'no test "constructor"'],
    [[...fix, '--db', join(folder, 'no-shop.sqlite')], 'no database'],
    [[...fix, '--loud'], '--loud'],
    [[...fix, small], 'One FILE'],
  ])('refuses %j, saying what is wrong and what to write, with status 2', async (argv, named) => {
    const { status, json, text } = await run('plan', small, ...argv);
    expect(text).toContain(named);
    expect(json).toMatchObject({ error: { code: 'WRONG_USE', help: expect.stringMatching(/\w/) } });
    expect(status).toBe(2);
  });

  it('takes a bench at a watched state once its interlock has been opened', async () => {
    const opened = ['--given', 'supply-resistance=clear', '--at', 'power=on', '--at', 'shell=open'];
    const { json } = await run('plan', small, ...fix, ...opened, '--method', 'fast');
    const { actions } = json as { readonly actions: readonly unknown[] };
    expect(actions).toContainEqual(expect.objectContaining({ id: 'rail-in', minutes: 0.8 }));
  });

  it('says so where a tree has no bench to stand on', async () => {
    const document = smallDocument();
    const bare = written(folder, 'bare.tree.json', {
      ...document,
      bench: {},
      interlocks: [],
      tests: Object.fromEntries(
        Object.entries(document.tests).map(([id, one]) => [id, { ...one, needs: {} }]),
      ),
      findings: Object.fromEntries(
        Object.entries(document.findings).map(([id, one]) => [
          id,
          { ...one, remedy: { ...one.remedy, needs: {} } },
        ]),
      ),
    });
    const { status, text } = await run('plan', bare, ...fix, '--at', 'power=off');
    expect(text).toContain('It has none');
    expect(status).toBe(2);
  });
});
