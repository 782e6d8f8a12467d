import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { beliefOf, chosen, compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { destination, readAndCheck } from '../../trees/document/index.ts';

const library = new URL('../../trees/library/', import.meta.url);
const { tree, errors, warnings } = readAndCheck(readFileSync(new URL('kw1-panel.tree.json', library)));
if (tree === null) throw new Error(errors.map(({ at, message }) => `${at}: ${message}`).join('\n'));
const { tests, findings, symptoms, interlocks, bench } = tree;

const ELECTRICAL = new Set(['dc-volts', 'ohms', 'continuity', 'diode', 'dc-amps', 'scope']);

/** One test made on a walk, and its result. */
interface Made {
  readonly test: string;
  readonly result: string;
}

/** One walk from a symptom's first step to a finding, and the share of the symptom's flow that takes it. */
interface Walk {
  readonly made: readonly Made[];
  readonly finding: string;
  readonly flow: number;
}

/** Every walk from a step to a finding, following paths into one another. */
function* walks(symptom: string, step: string, flow = 1, before: readonly Made[] = []): Generator<Walk> {
  const at = symptoms[symptom]?.steps[step];
  if (at === undefined) throw new Error(`${symptom} has no step ${step}`);
  const total = Object.values(at.then).reduce((sum, { weight }) => sum + weight, 0);
  for (const [result, { go, weight }] of Object.entries(at.then)) {
    const made = [...before, { test: at.test, result }];
    const share = (flow * weight) / total;
    const to = destination(go, symptom);
    if (to.kind === 'finding') yield { made, finding: to.finding, flow: share };
    else if (to.kind === 'step') yield* walks(to.symptom, to.step, share, made);
    else yield* walks(to.symptom, symptoms[to.symptom]?.first ?? '', share, made);
  }
}

const walksFrom = new Map(
  Object.entries(symptoms).map(([id, { first }]) => [id, [...walks(id, first ?? '')]]),
);
const allWalks = [...walksFrom.values()].flat().map(({ made }) => made);

/** Width, height, words and the middle of every marked pad of a drawing, in the drawing's own units. */
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
  return { svg, width, height, pads, words: svg.replace(/<[^>]*>/g, ' ').split(/\s+/) };
}

describe('the tree of the refitted panel', () => {
  it('passes the checker without a warning', () => {
    expect(warnings).toEqual([]);
  });

  it('has its six symptoms, at least 32 tests, 30 findings and 4 interlocks', () => {
    expect(Object.entries(symptoms).map(([id, { title }]) => [id, title])).toEqual([
      ['no-power-led', 'No power LED'],
      ['dead-short-indicator', 'Dead-short indicator'],
      ['no-game-audio', 'No game audio'],
      ['border-without-picture', 'Border without picture'],
      ['colour-swapped-sprites', 'Colour-swapped sprites'],
      ['dark-screen', 'Dark screen'],
    ]);
    expect(Object.keys(tests).length).toBeGreaterThanOrEqual(32);
    expect(Object.keys(findings).length).toBeGreaterThanOrEqual(30);
    expect(interlocks.length).toBeGreaterThanOrEqual(4);
  });

  it('makes no test twice on any walk', () => {
    for (const made of allWalks) {
      const ids = made.map(({ test }) => test);
      expect(new Set(ids).size, ids.join(' ')).toBe(ids.length);
    }
  });

  it('ends at the finding that the belief then holds most likely, on 95 % of each symptom’s flow', () => {
    const model = compileFaultModel(tree, NO_HISTORY);
    for (const [symptom, found] of walksFrom) {
      const agreeing = found.filter(({ made, finding }) => {
        const observations = made.map(({ test, result }) => chosen(test, result));
        return beliefOf(model, symptom, { observations, failed: [] }).findings[0]?.finding === finding;
      });
      const share = agreeing.reduce((sum, { flow }) => sum + flow, 0);
      expect(share, symptom).toBeGreaterThan(0.95);
    }
  });

  it('reads a value, not a choice, wherever a meter or scope shows one', () => {
    for (const [id, { instrument, reading }] of Object.entries(tests)) {
      const measured = ELECTRICAL.has(instrument) && instrument !== 'continuity';
      expect(reading !== undefined, id).toBe(measured);
    }
  });
});

describe('its drawings', () => {
  it('show every electrical test points that land on the middle of their own pad within half a unit', () => {
    for (const [id, { instrument, picture }] of Object.entries(tests)) {
      if (!ELECTRICAL.has(instrument)) continue;
      expect(picture?.points.length, id).toBeGreaterThan(0);
      const { width, height, pads } = drawing(picture?.file ?? '');
      for (const { x, y, label } of picture?.points ?? []) {
        const pad = pads.find(({ name }) => name === label);
        const off = pad === undefined ? Infinity : Math.hypot(pad.x - x * width, pad.y - y * height);
        expect(off, `${id} at ${label}`).toBeLessThan(0.5);
      }
    }
  });

  it('carry every point’s label as a word', () => {
    for (const { picture } of Object.values(tests)) {
      if (picture === undefined) continue;
      const { words } = drawing(picture.file);
      for (const { label } of picture.points) expect(words).toContain(label);
    }
  });

  it('stand on paper of their own, without scripts or anything fetched, in letters of 19 units or more', () => {
    for (const file of readdirSync(library).filter((name) => /^kw1-.*\.svg$/.test(name))) {
      const { svg, width, height } = drawing(file);
      expect(svg).toContain(`<rect width="${String(width)}" height="${String(height)}" fill="#`);
      expect(svg).not.toMatch(/<script|<image|<foreignObject|href=|url\(|\son[a-z]+=/i);
      const sizes = [...svg.matchAll(/font-size="(\d+)"/g)].map(([, size]) => Number(size));
      expect(Math.min(...sizes), file).toBeGreaterThanOrEqual(19);
    }
  });
});

// Common practice, no source: a rail that reads as a wire never gets power, first power has a current limit.
describe('its order of power', () => {
  it('bars every state of power but the start by an interlock', () => {
    const barred = new Set(interlocks.flatMap(({ change }) => change.power ?? []));
    const states = Object.keys(bench.power?.states ?? {}).filter((state) => state !== bench.power?.start);
    expect(states.filter((state) => !barred.has(state))).toEqual([]);
  });

  it('gives the unit no power on any walk before its supply has read clear to ground', () => {
    for (const made of allWalks) {
      const powered = made.findIndex(({ test }) =>
        ['limited', 'on'].includes(tests[test]?.needs.power ?? ''),
      );
      if (powered < 0) continue;
      const before = made.slice(0, powered);
      expect(before, made.map(({ test }) => test).join(' ')).toContainEqual({
        test: 'supply-resistance',
        result: 'clear',
      });
    }
  });

  it('has every interlock open on each walk that needs the state it bars', () => {
    for (const made of allWalks) {
      for (const [place, { test }] of made.entries()) {
        const watching = interlocks.filter(({ change }) =>
          Object.entries(change).some(([axis, state]) => tests[test]?.needs[axis] === state),
        );
        for (const [opener, allowed] of watching.flatMap(({ until }) => Object.entries(until))) {
          const result = made.slice(0, place).find((one) => one.test === opener)?.result;
          expect(allowed, `${opener} before ${test}`).toContain(result);
        }
      }
    }
  });

  it('opens the shell and moves the ribbon on every walk only with the power off before or after', () => {
    for (const made of allWalks) {
      const at: Record<string, string> = { power: 'off', shell: 'closed', panel: 'fitted' };
      for (const { test } of made) {
        const needs = tests[test]?.needs ?? {};
        const moves = ['shell', 'panel'].some((axis) => (needs[axis] ?? at[axis]) !== at[axis]);
        if (moves) expect([at.power, needs.power], test).toContain('off');
        Object.assign(at, needs);
      }
    }
  });

  it('moves the shell and the ribbon in every proof only with the power off before or after', () => {
    for (const [id, { prove, remedy }] of Object.entries(findings)) {
      const at: Record<string, string> = { power: 'off', shell: 'closed', panel: 'fitted', ...remedy.needs };
      for (const test of prove) {
        const needs = tests[test]?.needs ?? {};
        const moves = ['shell', 'panel'].some((axis) => (needs[axis] ?? at[axis]) !== at[axis]);
        if (moves) expect([at.power, needs.power], `${test} of ${id}`).toContain('off');
        Object.assign(at, needs);
      }
    }
  });

  it('powers the unit only with the ribbon fitted, so that no test asks for it back under power', () => {
    for (const [id, { needs }] of Object.entries(tests)) {
      if (needs.power === 'limited' || needs.power === 'on') expect(needs.panel, id).toBe('fitted');
    }
  });

  it('starts the unit from its own cells only after a normal current at first power', () => {
    const asked = Object.assign(
      {},
      ...interlocks.filter(({ change }) => change.power === 'on').map((l) => l.until),
    );
    expect(asked).toMatchObject({
      'supply-resistance': ['clear'],
      'current-first': ['normal'],
      'cells-look': ['good'],
    });
  });

  it('measures resistance and diodes only with the power off', () => {
    for (const [id, { instrument, needs }] of Object.entries(tests)) {
      if (['ohms', 'diode', 'continuity'].includes(instrument)) expect(needs.power, id).toBe('off');
    }
  });

  it('moves the ribbon of the driver board only behind a caution against power', () => {
    for (const { cautions } of bench.panel?.changes ?? [])
      expect(cautions.join(' ')).toMatch(/power applied/);
  });
});

describe('its remedies', () => {
  it('measures a rail to ground again after every use of the iron', () => {
    for (const [id, { prove, remedy }] of Object.entries(findings)) {
      if (!remedy.cautions.some((caution) => caution.startsWith('Iron'))) continue;
      const rails = prove.filter((test) => test.endsWith('-resistance'));
      expect(rails.length, id).toBeGreaterThan(0);
      expect(remedy.disturbs, id).toEqual(expect.arrayContaining(rails));
    }
  });

  it('take again every reading by which they are to be proved', () => {
    for (const [id, { prove, remedy }] of Object.entries(findings)) {
      expect(remedy.disturbs, id).toEqual(expect.arrayContaining([...prove]));
    }
  });

  it('warn of fire where alcohol is used, and of the caustic where cells or capacitors have leaked', () => {
    for (const [id, { remedy }] of Object.entries(findings)) {
      const cautions = remedy.cautions.join(' ');
      if (/isopropyl|contact cleaner/i.test(remedy.steps.join(' ')))
        expect(cautions, id).toMatch(/no power until all has dried/);
    }
    for (const id of ['springs-oxidised', 'electrolytic-leaked', 'flat-cells', 'cell-reversed']) {
      expect(findings[id]?.remedy.cautions.join(' '), id).toMatch(/caustic/);
    }
  });
});

describe('its cautions', () => {
  it('say first that the maker and local rules win', () => {
    expect(tree.cautions[0]).toMatch(/maker.*local rules.*they win/);
  });

  it('stand before every test on bare boards', () => {
    for (const [id, { needs, cautions }] of Object.entries(tests)) {
      if (needs.shell !== 'open') continue;
      expect(cautions.length, id).toBeGreaterThan(0);
      if (needs.power !== 'off') expect(cautions.join(' '), id).toMatch(/Power is on|1\.0 V/);
    }
  });

  it('name the polarity and the limit before the bench supply goes in', () => {
    const plugging = bench.power?.changes.find(({ to }) => to === 'limited');
    expect(plugging?.cautions.join(' ')).toMatch(/Centre negative.*limit/);
  });
});
