import { describe, expect, it } from 'vitest';
import { smallDocument } from '../support/trees.ts';
import { run, scratch, written } from './command-line.ts';

const small = written(scratch(), 'small.tree.json', smallDocument());

async function walk(...given: readonly string[]) {
  const flags = given.flatMap((one) => ['--given', one]);
  const { status, json, text } = await run('walk', small, '--symptom', 'dark-screen', ...flags);
  expect(status, text).toBe(0);
  return json as Record<string, unknown> & { way: Record<string, unknown>[] };
}

describe('walk', () => {
  it('stands at the first changeover when nothing is given, with the interlock barred', async () => {
    const at = await walk();
    expect(at).toMatchObject({
      stands: { kind: 'change', axis: 'shell', to: 'open', step: { symptom: 'dark-screen', step: 'short' } },
      bench: { power: 'off', shell: 'closed' },
      interlocks: [{ change: { power: 'on' }, state: 'barred' }],
      way: [],
    });
  });

  it('makes the changeovers that the given tests need, and power only once its interlock is open', async () => {
    const at = await walk('supply-resistance=4k7', 'rail-in=5V0', 'rail-far=3.1');
    expect(
      at.way.map((done) =>
        done['kind'] === 'change' ? `${done['axis']}=${done['to']}` : `${done['test']}:${done['result']}`,
      ),
    ).toEqual(['shell=open', 'supply-resistance:clear', 'power=on', 'rail-in:good', 'rail-far:drop']);
    expect(at).toMatchObject({
      stands: { kind: 'finding', finding: 'joint-open' },
      interlocks: [{ state: 'open' }],
      unused: [],
    });
  });

  it('takes a result for a measured test, ratios included, as well as a reading', async () => {
    const at = await walk('supply-resistance=clear', 'rail-in=good', 'rail-far=drop');
    expect(at).toMatchObject({ stands: { kind: 'finding', finding: 'joint-open' }, unused: [] });
  });

  it('says of a reading near a limit that it is too close to call', async () => {
    const at = await walk('supply-resistance=50.1');
    expect(at.way).toContainEqual(
      expect.objectContaining({ test: 'supply-resistance', result: 'clear', tooClose: true }),
    );
    expect((await walk('supply-resistance=4k7')).way.at(-1)).toMatchObject({ tooClose: false });
  });

  it('does not go past an interlock whose test was not given, and says which tests it did not come to', async () => {
    const at = await walk('border=none');
    expect(at).toMatchObject({ bench: { power: 'off' }, unused: ['border'] });
    expect(at.stands).toMatchObject({
      kind: 'test',
      test: 'supply-resistance',
      purpose: { kind: 'interlock' },
    });
  });

  it('stops where an interlock has been answered with a result that is not allowed', async () => {
    const at = await walk('supply-resistance=0.8', 'border=none');
    expect(at).toMatchObject({
      stands: { kind: 'barred', interlock: 0 },
      bench: { power: 'off' },
      unused: ['border'],
    });
  });

  it('ends with status 2 where a test that is no test is given', async () => {
    const { status } = await run('walk', small, '--symptom', 'dark-screen', '--given', 'nobody=x');
    expect(status).toBe(2);
  });
});
