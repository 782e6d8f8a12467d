import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readAndCheck, type Test } from '../../trees/document/index.ts';

const library = new URL('../../trees/library/', import.meta.url);
const { tree, errors, warnings } = readAndCheck(readFileSync(new URL('kw1-usb-charge.tree.json', library)));
if (tree === null) throw new Error(errors.map(({ at, message }) => `${at}: ${message}`).join('\n'));
const { tests, findings, symptoms, interlocks, bench } = tree;

const ELECTRICAL = new Set(['dc-volts', 'ohms', 'continuity', 'diode', 'dc-amps', 'scope']);

/** What an interlock asks before the power axis may move to `state`, all of its interlocks together. */
function askedBefore(state: string): Readonly<Record<string, readonly string[]>> {
  return Object.assign({}, ...interlocks.filter(({ change }) => change.power === state).map((l) => l.until));
}

/** Width, height and the middle of every marked pad of a drawing, in the drawing's own units. */
function drawing(file: string) {
  const svg = readFileSync(new URL(file, library), 'utf8');
  const [, width, height] = (/viewBox="0 0 (\d+) (\d+)"/.exec(svg) ?? []).map(Number);
  if (width === undefined || height === undefined) throw new Error(`${file} has no viewBox`);
  const pads = [...svg.matchAll(/<(circle|rect) data-point="([^"]+)" ([^>]*)>/g)].map(
    ([, shape, name, rest]) => {
      const value = (key: string) => Number(new RegExp(`(?:^| )${key}="([^"]+)"`).exec(rest ?? '')?.[1]);
      return shape === 'circle'
        ? { name, x: value('cx'), y: value('cy') }
        : { name, x: value('x') + value('width') / 2, y: value('y') + value('height') / 2 };
    },
  );
  return { svg, width, height, pads };
}

function text(test: Test): string {
  return [test.title, test.ask, ...Object.values(test.results).map(({ title }) => title)].join(' ');
}

describe('the tree of the USB-C charging board', () => {
  it('passes the checker without a warning', () => {
    expect(warnings).toEqual([]);
  });

  it('has at least 18 tests, 16 findings, 3 interlocks and its five symptoms', () => {
    expect(Object.keys(tests).length).toBeGreaterThanOrEqual(18);
    expect(Object.keys(findings).length).toBeGreaterThanOrEqual(16);
    expect(interlocks.length).toBeGreaterThanOrEqual(3);
    expect(Object.keys(symptoms)).toEqual(
      expect.arrayContaining([
        'no-charge-led',
        'charges-only-one-way-up',
        'charge-stops-early',
        'no-output',
        'runs-hot',
      ]),
    );
  });

  it('points every electrical test at pads that are drawn, and lands on their middle within half a unit', () => {
    for (const [id, { instrument, picture }] of Object.entries(tests)) {
      if (!ELECTRICAL.has(instrument)) continue;
      expect(picture?.points.length, id).toBeGreaterThan(0);
      const { width, height, pads } = drawing(picture?.file ?? '');
      for (const { x, y, label } of picture?.points ?? []) {
        const pad = pads.find((p) => Math.hypot(p.x - x * width, p.y - y * height) < 0.5);
        // A pad's name may say more than its printed label, and writes minus as a hyphen.
        expect(pad?.name, `${id} at ${label}`).toContain(label.replace('−', '-'));
      }
    }
  });

  it('labels every point with a word that stands on the drawing', () => {
    for (const { picture } of Object.values(tests)) {
      if (picture === undefined) continue;
      const words = drawing(picture.file)
        .svg.replace(/<[^>]*>/g, ' ')
        .split(/\s+/);
      for (const { label } of picture.points) expect(words).toContain(label);
    }
  });

  it('draws on paper of its own, without scripts or anything fetched', () => {
    for (const file of readdirSync(library).filter((name) => /^usbc-.*\.svg$/.test(name))) {
      const { svg, width, height } = drawing(file);
      expect(svg).toContain(`<rect width="${String(width)}" height="${String(height)}" fill="#`);
      expect(svg).not.toMatch(/<script|<image|<foreignObject|href=|url\(|\son[a-z]+=/i);
    }
  });

  it('proves each finding by at least one test, and by a rail to ground wherever an iron was used on the board', () => {
    for (const [id, { prove, remedy }] of Object.entries(findings)) {
      expect(prove.length, id).toBeGreaterThan(0);
      if (!remedy.cautions.some((caution) => caution.startsWith('Iron'))) continue;
      expect(prove.filter((test) => test.endsWith('-resistance')).length, id).toBeGreaterThan(0);
      expect(remedy.disturbs, id).toEqual(
        expect.arrayContaining(['vbus-resistance', 'cell-rail-resistance']),
      );
    }
  });

  it('takes a reading again after any remedy that is to be proved by it', () => {
    for (const { prove, remedy } of Object.values(findings)) {
      expect(remedy.disturbs).toEqual(expect.arrayContaining([...prove]));
    }
  });
});

// Common practice, no source: a rail that reads as a wire never gets power, first power has a current limit.
describe('its order of power', () => {
  it('gives no state of power away from the start without an interlock', () => {
    for (const state of Object.keys(bench.power?.states ?? {})) {
      if (state === bench.power?.start) continue;
      expect(Object.keys(askedBefore(state)), state).not.toHaveLength(0);
    }
  });

  it('puts the cable in only after VBUS and every rail behind it have read clear to ground', () => {
    const rails = {
      'vbus-resistance': ['clear'],
      'cell-rail-resistance': ['clear'],
      'system-resistance': ['clear'],
      'output-resistance': ['clear'],
    };
    expect(askedBefore('limited')).toMatchObject(rails);
    expect(askedBefore('on')).toMatchObject(rails);
  });

  it('feeds the board from a cell or in its place only after every rail on the cell’s side has read clear', () => {
    const rails = {
      'cell-rail-resistance': ['clear'],
      'system-resistance': ['clear'],
      'output-resistance': ['clear'],
    };
    expect(askedBefore('cell')).toMatchObject(rails);
    expect(askedBefore('stand-in')).toMatchObject(rails);
  });

  it('never plugs a cell in that has not been found sound by eye and above its cut-off by the meter', () => {
    const sound = { 'cell-look': ['sound'], 'cell-voltage': ['sound'] };
    expect(askedBefore('cell')).toMatchObject(sound);
    expect(askedBefore('on')).toMatchObject(sound);
  });

  it('charges no cell before the charger has shown 4.20 V and a normal current without one', () => {
    expect(askedBefore('on')).toMatchObject({
      'float-voltage': ['good'],
      'input-current': expect.not.arrayContaining(['limit']),
    });
  });

  it('answers each interlock from states that this interlock does not bar', () => {
    for (const { change, until } of interlocks) {
      for (const test of Object.keys(until)) expect(tests[test]?.needs.power).not.toBe(change.power);
    }
  });

  it('measures resistance only with the power off', () => {
    for (const [id, { instrument, needs }] of Object.entries(tests)) {
      if (instrument === 'ohms' || instrument === 'diode') expect(needs.power, id).toBe('off');
    }
  });
});

describe('its cautions', () => {
  it('says first that the maker and local rules win', () => {
    expect(tree.cautions[0]).toMatch(/maker.*local rules.*they win/);
  });

  it('stands before every test that speaks of the cell, mains or alcohol, and every one with power on', () => {
    for (const [id, test] of Object.entries(tests)) {
      const risky =
        /\bcell\b|lithium|mains|adapter|isopropyl/i.test(text(test)) || test.needs.power !== 'off';
      if (risky) expect(test.cautions.length, id).toBeGreaterThan(0);
    }
  });

  it('warns of an unsafe cell wherever a cell is looked at or measured by itself', () => {
    for (const id of ['cell-look', 'cell-voltage', 'cell-tabs']) {
      expect(tests[id]?.cautions.join(' '), id).toMatch(/swollen.*below.*cut-off.*not charged.*non-burning/);
    }
  });

  it('forbids soldering to a cell in each remedy that replaces the cell and nothing else', () => {
    for (const id of [
      'cell-unsafe',
      'cell-below-cutoff',
      'cell-worn',
      'protection-module-open',
      'thermistor-open',
    ]) {
      expect(findings[id]?.remedy.cautions.join(' '), id).toMatch(/Never solder to a cell/);
    }
  });

  it('warns of a short-circuit before every move that connects or frees a cell', () => {
    for (const { from, to, cautions } of bench.power?.changes ?? []) {
      const moves = [from, to].some((state) => state === 'cell' || state === 'on');
      if (moves && from !== 'cell')
        expect(cautions.join(' '), `${from} to ${to}`).toMatch(/no current limit/);
    }
  });
});
