import { describe, expect, it } from 'vitest';
import { graphOf, type Graph } from '../../../app/editor/drawing/graph.ts';
import { placeLayered } from '../../../app/editor/drawing/layered.ts';
import { partsOf, together } from '../../../app/editor/drawing/place-graph.ts';
import type { Box } from '../../../app/editor/drawing/placed.ts';
import type { Placer } from '../../../app/editor/drawing/placer.ts';
import { Scene } from '../../../app/editor/drawing/scene.svelte.ts';
import {
  addStep,
  addSymptom,
  addTest,
  applyChanges,
  liveTree,
  type Change,
} from '../../../trees/edit/index.ts';
import type { DraftDocument } from '../../../trees/edit/index.ts';

const PANE = { width: 640, height: 380 };

/** Our own placement, a moment later, as ELK's comes from its worker. */
const placer: Placer = {
  place: async (graph) => {
    await Promise.resolve();
    const parts = partsOf(graph);
    return together(parts, placeLayered(parts.reached), placeLayered(parts.apart));
  },
  stop: () => undefined,
};

/** A path of steps one below the other, and how it is added to. */
function openPath() {
  let document = JSON.parse(
    '{"symptoms":{},"tests":{},"findings":{},"bench":{},"interlocks":[]}',
  ) as DraftDocument;
  const make = (changes: readonly Change[]): void => {
    const applied = applyChanges(document, changes);
    if (!applied.ok) throw new Error(applied.message);
    ({ document } = applied);
  };
  const symptom = addSymptom(document, 'No light');
  make(symptom.changes);
  const lengthen = (from: string | undefined, result = ''): string => {
    const test = addTest(document, 'Test');
    make(test.changes);
    const step = addStep(
      document,
      symptom.id,
      test.id,
      from === undefined ? undefined : { symptom: symptom.id, step: from, result },
    );
    make(step.changes);
    return step.id;
  };
  const graph = (): Graph => graphOf(liveTree(document).tree, symptom.id);
  const soundOf = (step: string): string => {
    const { tests, symptoms } = liveTree(document).tree;
    return Object.keys(tests[symptoms[symptom.id]?.steps[step]?.test ?? '']?.results ?? {})[0] ?? '';
  };
  return { graph, lengthen, soundOf };
}

const idOf = (graph: Graph, step: string): string =>
  graph.nodes.find((node) => node.kind === 'step' && node.step === step)?.id ?? '';

function onScreen({ placed, viewport: { x, y, zoom } }: Scene, id: string): Box {
  const box = placed.boxes.get(id);
  if (box === undefined) throw new Error(`${id} is not laid out`);
  return { x: x + box.x * zoom, y: y + box.y * zoom, width: box.width * zoom, height: box.height * zoom };
}

async function sceneOf(graph: Graph): Promise<Scene> {
  const scene = new Scene(placer);
  scene.width = PANE.width;
  scene.height = PANE.height;
  await scene.lay(graph, () => undefined);
  return scene;
}

describe('the view of a path that is being added to', () => {
  it.each([0.7, 1, 1.25])('shows a new step whole as soon as it is laid out, at zoom %f', async (zoom) => {
    const path = openPath();
    let last = path.lengthen(undefined);
    const scene = await sceneOf(path.graph());
    scene.zoom(zoom / scene.viewport.zoom);
    for (let added = 0; added < 6; added += 1) {
      last = path.lengthen(last, path.soundOf(last));
      const graph = path.graph();
      const id = idOf(graph, last);
      // The workspace selects it in the moment in which it is made.
      scene.bring(id);
      await scene.lay(graph, () => id);
      const { x, y, width, height } = onScreen(scene, id);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(x + width).toBeLessThanOrEqual(PANE.width);
      expect(y + height).toBeLessThanOrEqual(PANE.height);
    }
  });

  it('stays where it is when a step is added elsewhere, which nobody asked to see', async () => {
    const path = openPath();
    const first = path.lengthen(undefined);
    const scene = await sceneOf(path.graph());
    const id = idOf(path.graph(), first);
    const before = onScreen(scene, id);
    let last = first;
    for (let added = 0; added < 4; added += 1) last = path.lengthen(last, path.soundOf(last));
    await scene.lay(path.graph(), () => id);
    const after = onScreen(scene, id);
    expect(after.x).toBeCloseTo(before.x, 6);
    expect(after.y).toBeCloseTo(before.y, 6);
  });
});
