import type { DrawingDesk } from './drawing-desk.svelte.ts';
import { towards, type Direction } from './neighbours.ts';
import { add, copy, cut, duplicate, go, open, paste, remove } from './acts.ts';

const ARROWS: Readonly<Record<string, Direction>> = {
  ArrowUp: 'up',
  ArrowDown: 'down',
  ArrowLeft: 'left',
  ArrowRight: 'right',
};

/** Keys of the drawing while it has the focus, by the name `keyOf` gives them. */
const KEYS: Readonly<Record<string, (desk: DrawingDesk) => void>> = {
  Enter: open,
  '+': (desk) => (desk.choice.spot?.kind === 'result' ? add(desk) : desk.scene.zoom(1.25)),
  '=': (desk) => desk.scene.zoom(1.25),
  '-': (desk) => desk.scene.zoom(0.8),
  '0': (desk) => desk.scene.fit(),
  Home: (desk) => {
    const start = desk.graph.nodes[0];
    if (start !== undefined) go(desk, start.id);
  },
  Delete: remove,
  Backspace: remove,
  'Ctrl+c': copy,
  'Ctrl+x': cut,
  'Ctrl+v': paste,
  'Ctrl+d': duplicate,
  l: (desk) => desk.choice.startLeading(),
};

/** Does what a key stands for. False where it stands for nothing here, so that it goes on to the screen. */
export function pressed(desk: DrawingDesk, key: string): boolean {
  const { choice, graph, scene } = desk;
  const direction = ARROWS[key];
  const spot = choice.spot;
  if (direction !== undefined && spot !== undefined) {
    const to = choice.any ? towards(graph, scene.placed, spot, direction) : spot.id;
    if (to !== undefined) go(desk, to);
    return true;
  }
  if (key === 'Escape') {
    if (choice.leading === undefined && choice.chosen.size < 2) return false;
    choice.clear();
    return true;
  }
  if (key === ' ' && spot?.kind === 'node') {
    choice.choose(spot.id, true);
    return true;
  }
  const act = KEYS[key];
  act?.(desk);
  return act !== undefined;
}
