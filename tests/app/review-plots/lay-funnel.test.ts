import { expect, test } from 'vitest';
import { layFunnel } from '../../../app/review/plots/lay-funnel.ts';

const ROOM = { width: 900, em: 13 };

function technician(name: string, closed: number, fixed: number) {
  return {
    id: name,
    tree: null,
    name,
    closed,
    fixed,
    rate: closed === 0 ? 0 : fixed / closed,
    low: 0,
    high: 1,
    stillOpen: 0,
    judged: { closed, fixed },
  };
}

const overall = technician('all', 1000, 800);

function numbersOf(path: string): readonly (readonly [x: number, y: number])[] {
  return [...path.matchAll(/[ML]([\d.]+),([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
}

test('who fixed one of one, or none of one, is within; who is far off in many jobs is outside', () => {
  const technicians = [
    technician('Ada', 1, 1),
    technician('Bram', 1, 0),
    technician('Cleo', 400, 240),
    technician('Dov', 400, 318),
  ];
  const { points } = layFunnel(technicians, overall, ROOM);
  expect(points.map(({ technician: { name }, outside }) => [name, outside])).toEqual([
    ['Ada', false],
    ['Bram', false],
    ['Cleo', true],
    ['Dov', false],
  ]);
  expect(points.find(({ outside }) => outside)?.label?.words).toBe('Cleo, outside');
});

test('a name too long for the drawing is cut off where it stands, and not where it is read out', () => {
  const name = 'Adalbertine Featherstonehaugh-Cholmondeley of the Lower Bench';
  const [point] = layFunnel([technician(name, 400, 318)], overall, ROOM).points;
  expect(point?.label?.words).toMatch(/^Adalbertine.*…$/);
  expect(point?.label?.words.length).toBeLessThan(40);
  expect(point?.technician.name).toBe(name);
});

test('who has closed mostly recent jobs is placed and judged by those whose window has passed; without one nobody is shown', () => {
  const [recent, none] = [technician('Finn', 400, 380), technician('Gil', 30, 30)];
  const { points, jobs } = layFunnel(
    [
      { ...recent, stillOpen: 360, judged: { closed: 40, fixed: 20 } },
      { ...none, stillOpen: 30, judged: { closed: 0, fixed: 0 } },
    ],
    overall,
    ROOM,
  );
  expect(points.map(({ technician: { name }, outside }) => [name, outside])).toEqual([['Finn', true]]);
  expect(Number(jobs.at(-1)?.words)).toBeLessThan(100);
});

test('the 95 % limits lie within the 99.8 % limits, about the overall line', () => {
  const { within95, within998, overall: middle } = layFunnel([technician('Ada', 300, 20)], overall, ROOM);
  const [wideHigh, high, low, wideLow] = [within998.high, within95.high, within95.low, within998.low].map(
    numbersOf,
  );
  for (const index of [10, 60, 100]) {
    const heights = [wideHigh, high, low, wideLow].map((line) => line?.[index]?.[1] ?? NaN);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
    expect(heights[1]).toBeLessThan(middle);
    expect(heights[2]).toBeGreaterThan(middle);
  }
});

test('technicians stay in the order given, and those without a closed job are left out', () => {
  const technicians = [technician('Esme', 40, 20), technician('Ada', 0, 0), technician('Bram', 40, 39)];
  const { points, plot } = layFunnel(technicians, overall, ROOM);
  expect(points.map(({ technician: { name } }) => name)).toEqual(['Esme', 'Bram']);
  for (const { x, y } of points) {
    expect(x).toBeGreaterThan(plot.left);
    expect(x).toBeLessThanOrEqual(plot.right);
    expect(y).toBeLessThanOrEqual(plot.bottom);
  }
});

test('where the axis is cut, limits below it are left out rather than drawn outside', () => {
  const { start, within998, plot } = layFunnel([technician('Ada', 300, 240)], overall, ROOM);
  expect(start).toBeGreaterThan(0);
  for (const [, y] of numbersOf(within998.low)) expect(y).toBeLessThanOrEqual(plot.bottom + 1e-3);
});

test('no name of a line stands at another line without a leader, however many jobs bring the lines together', () => {
  for (const closed of [30, 100, 400, 4000, 100_000])
    for (const width of [352, 620, 900]) {
      const people = [technician('Ada', closed, Math.round(closed * 0.62))];
      const {
        ends,
        leaders,
        overall: at,
        plot,
      } = layFunnel(people, technician('all', 1000, 626), {
        width,
        em: 13,
      });
      const names = ends.filter(({ words }) => words !== '62.6\u202f%');
      expect(names.map(({ words }) => words)).toContain('overall');
      for (const { x, words } of ends) expect(x + words.length * 0.53 * 13).toBeLessThanOrEqual(width);
      for (const { y } of ends) expect(y).toBeLessThanOrEqual(plot.bottom + 13);
      if (leaders.length === 0) {
        const rate = ends.find(({ words }) => words === '62.6\u202f%');
        expect(Math.abs((rate?.y ?? NaN) - at)).toBeLessThanOrEqual(20);
      } else {
        expect(leaders).toHaveLength(names.length);
        expect(leaders.map(({ fromY }) => fromY)).toContain(at);
      }
    }
  const crowded = layFunnel(
    [technician('Ada', 400, 250), technician('Bram', 20, 9)],
    technician('all', 1000, 626),
    ROOM,
  );
  expect(crowded.leaders).toHaveLength(5);
});
