import { percent } from '../../parts/format.ts';
import { placeOfGo } from './places.ts';
import type { DrawnBranch, DrawnNode, DrawnResult, DrawnStep, Graph } from './graph.ts';

const UNTITLED = 'untitled';

/** A title, or a word for one not written yet. */
export function titleWords(title: string): string {
  return title.trim() === '' ? UNTITLED : title;
}

/** What a box is called when it is announced. */
export function nodeWords(node: DrawnNode): string {
  if (node.kind === 'start') return `Start, ${titleWords(node.title)}`;
  if (node.kind === 'finding') return `Finding, ${titleWords(node.title)}, ${percent(node.share)} of units`;
  if (node.kind === 'elsewhere') {
    const test = node.testTitle === '' ? '' : `, ${node.testTitle}`;
    return `Goes on in another path, ${titleWords(node.title)}${test}`;
  }
  return `${stepName(node)}, ${node.reached ? `${percent(node.share)} of units` : 'not come to from the start'}`;
}

/** What a way out of a step is called when it is announced: where it starts, by which result, and where to. */
export function resultWords(graph: Graph, step: DrawnStep, result: DrawnResult): string {
  const extra = result.given ? '' : ', a result the test does not give';
  return `${stepName(step)}, ${titleWords(result.title)} ${leadWords(graph, result)}, ${percent(result.share)} of units${extra}`;
}

/** What a branch's line is called. */
export function branchWords({ node }: Graph, { from, to, title }: DrawnBranch): string {
  const [start, end] = [node.get(from), node.get(to)];
  return start === undefined || end === undefined
    ? titleWords(title)
    : `Branch from ${shortWords(start)}, ${titleWords(title)} to ${shortWords(end)}`;
}

/** Where a way out leads, as the end of a sentence. */
export function leadWords(graph: Graph, { go }: DrawnResult): string {
  if (go === undefined) return 'leads to nothing yet';
  const to = graph.node.get(placeOfGo(go, graph.symptom));
  return to === undefined ? `to ${go}, which is not there` : `to ${shortWords(to)}`;
}

/** A box in a few words, in the middle of a sentence. */
export function shortWords(node: DrawnNode): string {
  if (node.kind === 'start') return 'the start';
  if (node.kind === 'step') return `step ${String(node.number)}, ${titleWords(node.title)}`;
  if (node.kind === 'finding') return `finding ${titleWords(node.title)}`;
  return `path ${titleWords(node.title)}`;
}

function stepName({ number, title }: DrawnStep): string {
  return `Step ${String(number)}, ${titleWords(title)}`;
}
