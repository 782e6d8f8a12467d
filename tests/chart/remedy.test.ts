import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, type JobEvent } from '../../trees/chart/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { after, measured, reading, refusalCode } from './walking.ts';

const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const off: JobEvent = { kind: 'change', axis: 'power', to: 'off' };
const done: JobEvent = { kind: 'remedy-done' };
const clear = measured('supply-resistance', 'clear', 300);
const border = (result: string): JobEvent => ({ kind: 'answer', test: 'border', result });
const start = (finding: string): JobEvent => ({ kind: 'start-remedy', finding });

const dark = startWalk(compileChart(smallTree()), 'dark-screen');
const found = after(
  dark,
  open,
  clear,
  on,
  measured('rail-in', 'good', 5),
  measured('rail-far', 'good', 4.9),
  border('partial'),
);
const inHand = after(found, start('ribbon-loose'));
const proving = after(inHand, off, done);
const asked = after(proving, clear, on);

describe('a remedy', () => {
  it('is prepared for by its changeovers, then asked for', () => {
    expect(standing(found).act).toEqual({ kind: 'finding', finding: 'ribbon-loose' });
    expect(standing(inHand).act).toMatchObject({
      kind: 'change',
      axis: 'power',
      wanted: { kind: 'remedy', finding: 'ribbon-loose' },
    });
    expect(standing(after(inHand, off)).act).toEqual({ kind: 'remedy', finding: 'ribbon-loose' });
  });

  it('keeps the evidence that led to it', () => {
    expect(standing(inHand).job.remedies).toMatchObject([
      { finding: 'ribbon-loose', state: 'in-hand', prove: ['border'], proofs: [] },
    ]);
    expect(standing(inHand).job.remedies[0]?.evidence).toEqual(standing(found).job.answers);
  });

  it('may be taken in hand from anywhere in diagnosis', () => {
    for (const walk of [dark, after(dark, { kind: 'turn-to', test: 'tone' })])
      expect(standing(after(walk, start('panel-dead'))).job.remedies).toMatchObject([
        { finding: 'panel-dead', state: 'in-hand' },
      ]);
  });

  it.each<[string, JobEvent, string]>([
    ['done while the bench does not stand for it', done, 'needs-unmet'],
    ['started beside the one in hand', start('panel-dead'), 'remedy-in-hand'],
  ])('is not %s', (_, event, code) => {
    expect(refusalCode(inHand, event)).toBe(code);
  });

  it.each<[JobEvent, string]>([
    [done, 'no-remedy-in-hand'],
    [{ kind: 'give-up-remedy', reason: 'x' }, 'no-remedy-in-hand'],
    [start('constructor'), 'unknown-finding'],
    [start('unlisted'), 'what-missing'],
    [{ ...start('panel-dead'), what: 'It' } as JobEvent, 'what-not-wanted'],
  ])('is refused at a finding: %j as %s', (event, code) => {
    expect(refusalCode(found, event)).toBe(code);
  });

  it('lets a test be made aside or out of order meanwhile, and is still in hand then', () => {
    const aside = after(inHand, { kind: 'turn-to', test: 'tone' });
    expect(standing(aside).act).toMatchObject({ test: 'tone' });
    const answered = after(aside, { kind: 'answer', test: 'tone', result: 'heard' });
    expect(standing(answered).act).toMatchObject({ wanted: { kind: 'remedy', finding: 'ribbon-loose' } });
  });

  it('given up leaves the finding, and may be taken in hand again', () => {
    const given = after(inHand, { kind: 'give-up-remedy', reason: 'No part' });
    expect(standing(given).act).toEqual({ kind: 'finding', finding: 'ribbon-loose' });
    expect(standing(given).job.remedies).toMatchObject([{ state: 'given-up', reason: 'No part' }]);
    expect(standing(after(given, start('ribbon-loose'))).job.remedies).toMatchObject([
      { state: 'given-up' },
      { state: 'in-hand' },
    ]);
  });

  it('once done starts a new era: what it disturbs is dropped and every interlock is barred', () => {
    const { job, interlocks } = standing(proving);
    expect(job.era).toBe(1);
    expect(job.answers.map(({ test }) => test)).toEqual(['rail-in', 'rail-far', 'border']);
    expect(interlocks).toEqual(['barred']);
  });

  it('once done bars every interlock, also those whose test it does not disturb', () => {
    const document = smallDocument();
    for (const finding of Object.values(document.findings)) finding.remedy.disturbs = [];
    const walk = after(startWalk(compileChart(treeOf(document)), 'dark-screen'), ...proving.trail);
    expect(standing(walk).job.answers.map(({ test }) => test)).toContain('supply-resistance');
    expect(standing(walk).interlocks).toEqual(['barred']);
    expect(refusalCode(walk, on)).toBe('barred');
    expect(standing(walk).act).toMatchObject({ test: 'supply-resistance', purpose: { kind: 'interlock' } });
  });

  it('cannot be given up or another started while it is being proved', () => {
    expect(refusalCode(proving, { kind: 'give-up-remedy', reason: 'x' })).toBe('remedy-done-already');
    expect(refusalCode(proving, done)).toBe('remedy-done-already');
    expect(refusalCode(proving, start('panel-dead'))).toBe('proof-first');
  });
});

describe('a proof', () => {
  it('makes the interlock’s test first, powers up, and asks the finding’s tests', () => {
    expect(standing(proving).act).toMatchObject({
      test: 'supply-resistance',
      purpose: { kind: 'interlock', wanted: { test: 'border' } },
    });
    expect(standing(after(proving, clear)).act).toMatchObject({
      kind: 'change',
      axis: 'power',
      change: { to: 'on' },
    });
    expect(standing(asked).act).toEqual({
      kind: 'test',
      test: 'border',
      purpose: { kind: 'proof', finding: 'ribbon-loose' },
    });
  });

  it('that gives every first result mends the unit, which then is closed as fixed', () => {
    const mended = after(asked, border('whole'));
    expect(standing(mended).act).toEqual({ kind: 'mended', finding: 'ribbon-loose' });
    expect(standing(mended).job.remedies).toMatchObject([
      { state: 'mended', proofs: [{ test: 'border', result: 'whole', era: 1 }] },
    ]);
    expect([...standing(mended).allows].sort()).toEqual(['change', 'close', 'correct', 'take-back']);
    expect(refusalCode(mended, border('none'))).toBe('mended-already');
    expect(refusalCode(mended, { kind: 'turn-to', test: 'tone' })).toBe('mended-already');
    expect(refusalCode(mended, { kind: 'skip', test: 'tone', reason: 'x', as: 'heard' })).toBe(
      'mended-already',
    );
    expect(refusalCode(mended, start('panel-dead'))).toBe('mended-already');
    expect(standing(after(mended, { kind: 'close', outcome: 'fixed' })).act).toEqual({
      kind: 'closed',
      outcome: 'fixed',
    });
  });

  it('supersedes the answer from before the remedy without a contradiction', () => {
    expect(standing(after(asked, border('none'))).job).not.toHaveProperty('contradiction');
  });

  it('that fails goes on where the finding says otherwise', () => {
    const failed = after(asked, border('partial'));
    expect(standing(failed).job.remedies).toMatchObject([{ state: 'not-mended' }]);
    expect(standing(failed).act).toEqual({ kind: 'finding', finding: 'panel-dead' });
    expect(refusalCode(failed, start('ribbon-loose'))).toBe('tried-already');
  });

  it('that failed sends the course past its finding each time it sets out from the start again', () => {
    const correct = (result: string, value: number): JobEvent => {
      return { kind: 'correct', test: 'rail-in', result, reading: reading(value) };
    };
    const away = after(asked, border('partial'), correct('low', 4));
    expect(standing(away).act).toEqual({ kind: 'finding', finding: 'converter-low' });
    expect(standing(after(away, correct('good', 5))).act).toEqual({ kind: 'finding', finding: 'panel-dead' });
  });

  it('that fails where nothing is said otherwise leaves the job adrift', () => {
    const panel = after(
      found,
      { kind: 'correct', test: 'border', result: 'none' },
      start('panel-dead'),
      off,
      done,
      clear,
      on,
    );
    const failed = after(panel, border('none'));
    expect(standing(failed).act).toEqual({ kind: 'adrift', because: 'path-ended' });
    expect(standing(failed).allows).toContain('start-remedy');
  });

  it('is not skipped', () => {
    expect(refusalCode(asked, { kind: 'skip', test: 'border', reason: 'x', as: 'whole' })).toBe(
      'proof-not-skipped',
    );
  });

  it('fails where the interlock on its way gives a result that is not allowed', () => {
    const shorted = after(proving, measured('supply-resistance', 'short', 2));
    expect(standing(shorted).job.remedies).toMatchObject([{ state: 'not-mended', proofs: [] }]);
    expect(standing(shorted).act).toEqual({ kind: 'finding', finding: 'capacitor-short' });
  });

  it('is taken up again when its failure turns out to be mis-keyed', () => {
    const failed = after(asked, border('partial'));
    const corrected = after(failed, { kind: 'correct', test: 'border', result: 'whole' });
    expect(standing(corrected).act).toEqual({ kind: 'mended', finding: 'ribbon-loose' });
  });

  it('and the evidence are corrected with a mis-keyed answer, for every remedy it belongs to', () => {
    const second = after(asked, border('partial'), start('panel-dead'));
    const corrected = after(second, { kind: 'correct', test: 'border', result: 'none' });
    const [first, next] = standing(corrected).job.remedies;
    expect(first).toMatchObject({ state: 'not-mended', proofs: [{ test: 'border', result: 'none' }] });
    expect(first?.evidence).toContainEqual({ test: 'border', result: 'partial', era: 0 });
    expect(next?.evidence).toContainEqual({ test: 'border', result: 'none', era: 1 });
  });

  it('that was passed is undone by correcting its answer', () => {
    const mended = after(asked, border('whole'));
    const corrected = after(mended, { kind: 'correct', test: 'border', result: 'none' });
    expect(standing(corrected).job.remedies).toMatchObject([
      { state: 'not-mended', proofs: [{ result: 'none' }] },
    ]);
  });

  it('of a finding that names no tests asks again what was not sound in the evidence', () => {
    const document = smallDocument();
    for (const finding of Object.values(document.findings)) finding.prove = [];
    const walk = after(
      startWalk(compileChart(treeOf(document)), 'dark-screen'),
      ...found.trail,
      start('ribbon-loose'),
    );
    expect(standing(walk).job.remedies).toMatchObject([{ prove: ['border'] }]);
  });

  it('of a finding that names no tests asks for what was not sound before its remedy was taken in hand, not since', () => {
    const document = smallDocument();
    for (const finding of Object.values(document.findings)) finding.prove = [];
    const first = after(startWalk(compileChart(treeOf(document)), 'dark-screen'), ...found.trail);
    const tone: readonly JobEvent[] = [
      { kind: 'turn-to', test: 'tone' },
      { kind: 'answer', test: 'tone', result: 'silent' },
    ];
    const meanwhile = after(first, start('ribbon-loose'), ...tone);
    const before = after(first, ...tone, start('ribbon-loose'));
    expect(standing(meanwhile).job.remedies).toMatchObject([{ prove: ['border'] }]);
    expect(standing(before).job.remedies).toMatchObject([{ prove: ['border', 'tone'] }]);
  });

  it('of a cause outside the tree asks again what was not sound, and mends at once where nothing was', () => {
    const other = { kind: 'start-remedy', finding: 'unlisted', what: 'Dust' } as const;
    const walk = after(found, other, done);
    expect(standing(walk).job.remedies).toMatchObject([
      { finding: 'unlisted', what: 'Dust', state: 'proving', prove: ['border'] },
    ]);
    expect(standing(after(dark, other, done)).act).toEqual({ kind: 'mended', finding: 'unlisted' });
  });

  it('of a cause outside the tree that failed bars that cause, not another', () => {
    const dust = { kind: 'start-remedy', finding: 'unlisted', what: 'Dust' } as const;
    const failed = after(found, dust, done, off, clear, on, border('partial'));
    expect(refusalCode(failed, dust)).toBe('tried-already');
    expect(refusalCode(failed, { ...dust, what: 'Rust' })).toBe('taken');
  });

  it('in two tests goes through them in order, and fails by either', () => {
    const far = after(found, start('joint-open'), off, done, clear, on);
    expect(standing(far).act).toMatchObject({ test: 'rail-far', purpose: { kind: 'proof' } });
    const next = after(far, measured('rail-far', 'good', 4.9));
    expect(standing(next).act).toMatchObject({ test: 'border', purpose: { kind: 'proof' } });
    expect(standing(after(next, border('whole'))).act).toMatchObject({ kind: 'mended' });
    expect(standing(after(far, border('none'))).job.remedies).toMatchObject([{ state: 'not-mended' }]);
  });
});

describe('a loop through otherwise', () => {
  it('ends adrift', () => {
    const document = smallDocument();
    for (const finding of Object.values(document.findings)) finding.otherwise = 'symptom:dark-screen/look';
    const walk = startWalk(compileChart(treeOf(document)), 'dark-screen');
    const failed = after(walk, ...asked.trail, border('partial'));
    expect(standing(failed).act).toEqual({ kind: 'adrift', because: 'path-ended' });
  });
});
