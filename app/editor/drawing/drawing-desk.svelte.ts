import { Choice } from './choice.svelte.ts';
import { alike, keepLast, sameEntries } from '../desk/alike.ts';
import type { DrawingProps } from './drawing-props.ts';
import {
  flowBranchOf,
  keepFlowNodes,
  type FlowBranch,
  type FlowNode,
  type NodeState,
} from './flow-elements.ts';
import { openGraphs, type DrawnNode } from './graph.ts';
import { boxAt, lineAt } from './hit.ts';
import { idsOf } from './ids.ts';
import { boxOf } from './neighbours.ts';
import type { Box } from './placed.ts';
import { keepStrokes } from './painter.ts';
import type { Placer } from './placer.ts';
import { problemsByPlace, sameSigns, signsOf } from './problems-by-place.ts';
import { branchWords, resultWords } from './words.ts';
import { Scene } from './scene.svelte.ts';

/** How near, in pixels on the screen, a click has to come to a branch. */
const REACH = 8;
/** So many of the boxes chosen are elements even where all is painted. */
const MOST_CHOSEN = 40;

/** What the drawing shows and does: the graph, where it stands, what is chosen in it. It tells the workspace and changes nothing itself. */
export class DrawingDesk {
  readonly #props: () => DrawingProps;
  readonly scene: Scene;
  readonly choice: Choice;
  /** The branch under the pointer. */
  pointed = $state<string>();
  /** The box being drawn to choose what is in it, from the pane's corner. */
  band = $state.raw<Box>();
  dropped = false;
  readonly #graphOf = openGraphs();
  readonly #strokesOf = keepStrokes();
  readonly #kept = keepFlowNodes();
  readonly #keptSigns = keepLast(sameSigns);
  readonly #keptNodes = keepLast<FlowNode[]>(sameEntries);
  readonly #keptBranches = keepLast<FlowBranch[]>(alike);
  readonly #keptAlways = keepLast<readonly string[]>(sameEntries);

  constructor(props: () => DrawingProps, placer: Placer) {
    this.#props = props;
    this.scene = new Scene(placer);
    this.choice = new Choice(() => this.graph, props);
  }

  readonly graph = $derived.by(() => {
    const { tree, symptom, shares } = this.props;
    return this.#graphOf(tree, symptom, shares);
  });
  readonly #problems = $derived.by(() => problemsByPlace(this.graph, this.props.problems ?? []));
  /** By box, the sign of what became of it, else of the worst that is wrong in it. */
  readonly signs = $derived.by(() => this.#keptSigns(signsOf(this.graph, this.#problems, this.props.marks)));
  readonly strokes = $derived.by(() => this.#strokesOf(this.graph, this.scene.placed));
  /** Boxes that are there as elements whatever is seen: some chosen, and those at either end of where the keyboard stands. */
  readonly always = $derived.by((): readonly string[] => {
    const here = this.choice.spot;
    const way = here?.kind === 'result' ? this.graph.branches.find(({ id }) => id === here.id) : undefined;
    return this.#keptAlways([
      ...[...this.choice.chosen].slice(0, MOST_CHOSEN),
      ...(here === undefined ? [] : [boxOf(here)]),
      ...(way === undefined ? [] : [way.from, way.to]),
    ]);
  });
  /** Branches drawn strongly. */
  readonly strong = $derived.by(() => idsOf([this.choice.current, this.pointed, this.choice.leading]));

  readonly nodes = $derived.by((): FlowNode[] =>
    this.#keptNodes(
      [...this.scene.mounted].flatMap((id) => {
        const box = this.scene.placed.boxes.get(id);
        const node = this.graph.node.get(id);
        return box === undefined || node === undefined ? [] : [this.#flowNode(node, box)];
      }),
    ),
  );

  /** The branch that is chosen, where one is. */
  readonly branches = $derived.by((): FlowBranch[] => {
    const { current } = this.choice;
    const stroke =
      current === undefined ? undefined : this.strokes.find(({ branch }) => branch.id === current);
    if (stroke === undefined) return this.#keptBranches([]);
    const { branch, way } = stroke;
    return this.#keptBranches([flowBranchOf(branch, way, branchWords(this.graph, branch), this.readonly)]);
  });

  get props(): DrawingProps {
    return this.#props();
  }

  get readonly(): boolean {
    return this.props.readonly ?? false;
  }

  /** A branch that was drawn has been let go: the click that the browser makes of it is none. */
  letGo(): void {
    this.dropped = true;
    setTimeout(() => (this.dropped = false));
  }

  /** What of the drawing is at a point of the pane: a box, or a branch that comes near it. */
  at(x: number, y: number): string | undefined {
    const { placed, viewport } = this.scene;
    const point = this.scene.pointAt(x, y);
    return boxAt(placed, point) ?? lineAt(placed, point, REACH / viewport.zoom);
  }

  /** Has the way out that `choice.leading` names, or the one given, lead to a box. */
  lead(id: string, from = this.choice.leadingFrom): void {
    this.choice.clear();
    const to = this.graph.node.get(id);
    if (from === undefined || to === undefined || this.readonly) return;
    if (from.step === null || from.result === null) {
      if (to.kind === 'step') this.props.onstart?.(to.step);
      return;
    }
    const go = goOf(to);
    const way = from.step.results.find(({ result }) => result === from.result);
    if (way !== undefined) this.choice.choose(way.at);
    if (go !== undefined && to.id !== from.step.id) this.props.onlink?.(from.step.step, from.result, go);
  }

  #flowNode(node: DrawnNode, box: Box): FlowNode {
    const { graph, choice } = this;
    const problems = this.#problems.get(node.id) ?? [];
    const state: NodeState = {
      node,
      ways: node.kind === 'step' ? node.results.map((result) => resultWords(graph, node, result)) : [],
      chosen: choice.chosen.has(node.id) || choice.current === node.id,
      current: choice.spot?.node.id === node.id ? choice.spot.id : undefined,
      worst: problems.some(({ severity }) => severity === 'error') ? 'error' : problems[0]?.severity,
      problems: problems.length,
      marks: this.props.marks,
      readonly: this.readonly,
    };
    return this.#kept(state, box);
  }
}

/** The `go` that leads to a box; none leads to the start. */
function goOf(to: DrawnNode): string | undefined {
  if (to.kind === 'step') return to.step;
  if (to.kind === 'finding') return `finding:${to.finding}`;
  return to.kind === 'elsewhere' ? to.id : undefined;
}
