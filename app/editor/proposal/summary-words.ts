import { own, type Tree } from '../../../trees/document/index.ts';
import type { Goal } from '../../../trees/plan/index.ts';
import { titled } from '../desk/part-words.ts';
import type { PathShape } from './protocol.ts';

/** What a proposal does to the path, in one sentence: how many steps it has then, and which tests it begins with. */
export function shapeWords(tree: Tree, before: PathShape, after: PathShape): string {
  const steps =
    before.steps === after.steps
      ? `The path keeps its ${stepsWords(after.steps)}`
      : `The path ${before.steps < after.steps ? 'grows' : 'shrinks'} from ${String(before.steps)} to ${stepsWords(after.steps)}`;
  const [was, is] = [before.tests, after.tests].map((tests) => testsWords(tree, tests));
  if (was === is) return `${steps}, and begins with the same tests: ${is ?? ''}.`;
  if (before.tests.length === 0) return `${steps}, and begins with ${is ?? ''}.`;
  return `${steps}; it begins with ${is ?? ''}, where it now begins with ${was ?? ''}.`;
}

function stepsWords(steps: number): string {
  return steps === 1 ? '1 step' : `${String(steps)} steps`;
}

function testsWords(tree: Tree, tests: readonly string[]): string {
  return tests.map((test) => `“${titled(own(tree.tests, test)?.title)}”`).join(', then ');
}

/** Minutes to a tenth: whole ones would hide what a proposal saves. */
export function tenths(minutes: number): string {
  return `${(inTenths(minutes) / 10).toFixed(1)} min`;
}

/** How many minutes a proposed order saves: the difference of what {@link tenths} says of the two. */
export function savingWords(before: number, after: number): string {
  const saved = inTenths(before) - inTenths(after);
  if (saved === 0) return 'less than 0.1 min apart';
  return `${(Math.abs(saved) / 10).toFixed(1)} min ${saved > 0 ? 'less' : 'more'}`;
}

function inTenths(minutes: number): number {
  return Math.round(minutes * 10);
}

/** How many units more or fewer a proposed order mends, or ends at the right finding. */
export function rightWords(before: number, after: number, goal: Goal): string {
  const what = goal === 'fix' ? 'mended' : 'at the right finding';
  const more = Math.round((after - before) * 1000) / 10;
  if (more === 0) return `as many ${what}`;
  return `${String(Math.abs(more))} in 100 ${more > 0 ? 'more' : 'fewer'} ${what}`;
}
