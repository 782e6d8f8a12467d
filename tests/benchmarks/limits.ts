import { scaleFor } from '../../app/editor/bands/scale.ts';
import { stripOf } from '../../app/editor/bands/strip.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import {
  expectedOf,
  layoutBands,
  resorting,
  rocOf,
  separationsOf,
  setLimit,
  type RecordedReading,
} from '../../trees/limits/index.ts';
import { smallTree } from '../support/trees.ts';
import { medianMs, type Measure } from './measure.ts';

const TEST = 'rail-in';
/** As many as the form asks for. */
const READINGS = 5000;
const ROUNDS = 31;

/** What the number line works out from a test's readings: once for a tree, and again for each move of the pointer. */
export default function (): Measure[] {
  const tree = smallTree();
  const test = tree.tests[TEST];
  const [limit] = layoutBands(test?.results ?? {}).limits;
  if (test === undefined || limit === undefined) throw new Error(`no limit of ${TEST}`);
  const readings = drawnReadings();
  const results = setLimit(test.results, limit, 4.6);
  const scale = scaleFor([4.6, 5.25], []);
  const expected = expectedOf(tree, TEST);

  const once = medianMs(ROUNDS, () => separationsOf(tree, TEST, readings));
  const move = medianMs(ROUNDS, () => {
    resorting(tree, TEST, results, readings);
    stripOf({ ...test, results }, expected, readings, scale, 60);
  });
  const placed = readings.map(({ value, finding }) => ({ at: Number(value), finding }));
  const isPositive = ({ finding }: { readonly finding: string }): boolean => finding === 'panel-dead';
  const ranks = medianMs(ROUNDS, () => rocOf(placed, isPositive));
  const pairs = medianMs(3, () => areaByPairs(placed, isPositive));
  agree(rocOf(placed, isPositive)?.area, areaByPairs(placed, isPositive));
  const name = `${String(READINGS)} readings`;
  return [
    { name: `what readings say of every limit, ${name}`, figure: once, unit: 'ms', limit: { atMost: 60 } },
    { name: `one move of a limit's handle, ${name}`, figure: move, unit: 'ms', limit: { atMost: 40 } },
    {
      name: `curve by ranks / area by pairs, ${name}`,
      figure: ranks / pairs,
      unit: 'times',
      limit: { atMost: 0.5 },
      against: `counting every pair (${pairs.toFixed(0)} ms)`,
    },
  ];
}

function drawnReadings(): RecordedReading[] {
  const random = seededRandom(11);
  const accuracy = { percent: 0.5, constant: 0.005 };
  return Array.from({ length: READINGS }, () => {
    const finding = random.choose(['converter-low', 'panel-dead', 'joint-open', 'converter-high']);
    const middle = { 'converter-low': 4.4, 'converter-high': 5.6 }[finding] ?? 5;
    const value = Number((middle + random.next() - 0.5).toFixed(2));
    return { value, reference: null, accuracy, result: 'good', finding };
  });
}

type Placed = readonly { readonly at: number; readonly finding: string }[];

function areaByPairs(placed: Placed, isPositive: (one: Placed[number]) => boolean): number {
  const [above, below] = [placed.filter(isPositive), placed.filter((one) => !isPositive(one))];
  let sum = 0;
  for (const { at } of above) for (const other of below) sum += at > other.at ? 1 : at === other.at ? 0.5 : 0;
  return sum / (above.length * below.length);
}

function agree(area: number | undefined, expected: number): void {
  if (Math.abs((area ?? -1) - expected) > 1e-9) throw new Error('The area differs from counting every pair.');
}
