import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, toScxml, type Walk } from '../../trees/chart/index.ts';
import { readAndCheck, type Tree } from '../../trees/document/index.ts';
import { interpretersOf } from '../support/scxml-interpreter.ts';
import { retrace, walkBoth } from './scxml-walking.ts';
import { after, follow, type Dice } from './walking.ts';

describe.each(['kw1-panel', 'kw1-usb-charge'])('the export of the shipped tree %s', (name) => {
  const tree = shipped(name);
  const chart = compileChart(tree);
  const interpreters = interpretersOf(toScxml(tree));

  it('is walked next to the chart from a symptom to a finding, its remedy, the proof and the close', async () => {
    const [symptom = ''] = Object.keys(tree.symptoms);
    const start = startWalk(chart, symptom);
    const { trail } = mendedJob(start);
    const { act, job } = standing(retrace((await interpreters)(), start, trail));
    expect(act).toEqual({ kind: 'closed', outcome: 'fixed' });
    expect(job.remedies.map(({ state }) => state)).toEqual(['mended']);
    const kinds = new Set(trail.map(({ kind }) => kind));
    expect(kinds).toEqual(new Set(['answer', 'change', 'start-remedy', 'remedy-done', 'close']));
  }, 60_000);

  it('is walked to the same configurations as the chart by random events', async () => {
    const interpreterAtStart = await interpreters;
    const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
    const throws: fc.Arbitrary<readonly Dice[]> = fc.array(dice, { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(tree.symptoms)), throws, (symptom, drawn) => {
        walkBoth(interpreterAtStart(), startWalk(chart, symptom), drawn);
      }),
      { numRuns: 3, endOnFailure: true },
    );
  }, 60_000);
});

/** The first result at every test down the path, then the finding's remedy, a proof that is passed, and the close. */
function mendedJob(start: Walk): Walk {
  const found = follow(start, () => 0);
  const { act } = standing(found);
  if (act.kind !== 'finding') throw new Error(`The path ends in ${act.kind}.`);
  const inHand = follow(after(found, { kind: 'start-remedy', finding: act.finding }), () => 0);
  const proved = follow(after(inHand, { kind: 'remedy-done' }), () => 0);
  return after(proved, { kind: 'close', outcome: 'fixed' });
}

function shipped(name: string): Tree {
  const file = new URL(`../../trees/library/${name}.tree.json`, import.meta.url);
  const { tree } = readAndCheck(readFileSync(file));
  if (tree === null) throw new Error(`${name} cannot be walked.`);
  return tree;
}
