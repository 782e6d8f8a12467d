import type { FaultModel } from '../belief/index.ts';
import { gammaDraws, type Draw } from './gamma.ts';
import type { Chances, Flowed, PathFlow } from './path-flow.ts';

/** The fault model's means. Each symptom counts as the confirmed jobs that came with it, and one more. */
export function meanChances(model: FaultModel, { symptoms, tests }: PathFlow): Chances {
  return {
    coming: symptoms.map((symptom) => {
      const { probability, jobs } = model.prior(symptom);
      const units = 1 + sum(jobs);
      return probability.map((share) => share * units);
    }),
    tests: tests.map((test) => model.test(test).probability),
  };
}

/** A finding that holds less than this of the units at every step of a test is not worth drawing what the test gives of it. */
const WORTH_DRAWING = 3e-3;

/** Chances to be drawn again and again; the tables are written over each time. */
export interface DrawnChances {
  readonly chances: Chances;
  readonly draw: () => void;
}

/**
 * Draws chances from the posterior Dirichlets: of the symptoms' findings (strength S + n(s)), of the symptoms among each other
 * (one and n(s) of each), and of each test's results under each finding (strength K + n(t,f)). A row keeps its mean where its
 * finding never has three thousandths of the units that come to the test, as that cannot move a share by more.
 */
export function drawnChances(
  model: FaultModel,
  flow: PathFlow,
  mean: Chances,
  { units }: Flowed,
  random: Draw,
): DrawnChances {
  const gamma = gammaDraws(random);
  const { strength } = model.tree.defaults;
  const chances = { coming: mean.coming.map(copy), tests: mean.tests.map(copy) };
  const priors = flow.symptoms.map((symptom, place) => {
    const { probability, jobs } = model.prior(symptom);
    const all = sum(jobs);
    const shapes = probability.map((share) => share * (strength + all));
    return { shapes, units: 1 + all, into: chances.coming[place] ?? new Float64Array() };
  });
  const rows = rowsWorthDrawing(model, flow, units, chances);
  const longest = [...priors, ...rows].reduce((most, { shapes }) => Math.max(most, shapes.length), 0);
  const drawn = new Float64Array(longest);
  const draw = (): void => {
    for (const { shapes, units: shape, into } of priors) {
      drawInto(into, 0, shapes, drawn, gamma);
      const coming = gamma(shape);
      for (let row = 0; row < into.length; row += 1) into[row] = (into[row] ?? 0) * coming;
    }
    for (const { shapes, into, from } of rows) drawInto(into, from, shapes, drawn, gamma);
  };
  return { chances, draw };
}

interface Row {
  readonly shapes: Float64Array;
  readonly into: Float64Array;
  readonly from: number;
}

function rowsWorthDrawing(
  model: FaultModel,
  flow: PathFlow,
  units: Float64Array,
  { tests }: Chances,
): readonly Row[] {
  const largest = largestShares(flow, units);
  return flow.tests.flatMap((id, test) => {
    const { probability, weight, results } = model.test(id);
    const k = results.length;
    return Array.from(weight, (_, row) => row)
      .filter((row) => {
        const present = largest[test * flow.findings + row] ?? 0;
        return Number.isFinite(weight[row]) && present >= WORTH_DRAWING;
      })
      .map((row) => ({
        shapes: probability.slice(row * k, row * k + k).map((share) => share * (weight[row] ?? 0)),
        into: tests[test] ?? new Float64Array(),
        from: row * k,
      }));
  });
}

/** By test and finding the largest share that the finding has of the units at a state with that test. */
function largestShares({ states, findings, tests }: PathFlow, units: Float64Array): Float64Array {
  const largest = new Float64Array(tests.length * findings);
  states.forEach(({ test }, state) => {
    const coming = units.subarray(state * findings, state * findings + findings);
    const all = sum(coming);
    if (all === 0) return;
    coming.forEach((amount, row) => {
      const at = test * findings + row;
      largest[at] = Math.max(largest[at] ?? 0, amount / all);
    });
  });
  return largest;
}

/** A Dirichlet variate: gamma variates of the shapes, scaled to sum to one. The last one stays should all of them underflow. */
function drawInto(
  into: Float64Array,
  from: number,
  shapes: Float64Array,
  drawn: Float64Array,
  gamma: (shape: number) => number,
): void {
  let all = 0;
  for (let place = 0; place < shapes.length; place += 1) {
    const variate = gamma(shapes[place] ?? 0);
    drawn[place] = variate;
    all += variate;
  }
  if (all === 0) return;
  for (let place = 0; place < shapes.length; place += 1) into[from + place] = (drawn[place] ?? 0) / all;
}

function copy(table: Float64Array): Float64Array {
  return table.slice();
}

function sum(values: Float64Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
