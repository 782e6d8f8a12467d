import type { Picture } from '../../../trees/document/index.ts';

/** A point to probe on a drawing 100 wide, with the line that leads from it to its label. */
export interface Leader {
  readonly number: number;
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly endX: number;
  readonly endY: number;
  readonly anchor: 'start' | 'end';
}

const REACH = 7;
const LINE = 5.2;

/**
 * Leaders from the points towards the nearer side edge's inside, labels kept a line apart from top to bottom so that no
 * two lie on each other. `ratio` is the drawing's height by its width.
 */
export function leadersOf(points: Picture['points'], ratio: number): readonly Leader[] {
  const height = 100 * ratio;
  const leaders = points.map(({ x, y, label }, index) => ({
    number: index + 1,
    label,
    x: x * 100,
    y: y * height,
    ...end(x * 100, y * height),
  }));
  const placed: Leader[] = [];
  for (const leader of [...leaders].sort((a, b) => a.endY - b.endY)) {
    const lowest = Math.max(
      ...placed.filter(({ anchor }) => anchor === leader.anchor).map(({ endY }) => endY + LINE),
      LINE / 2,
    );
    placed.push({ ...leader, endY: Math.min(Math.max(leader.endY, lowest), height - LINE / 2) });
  }
  return placed.sort((a, b) => a.number - b.number);
}

function end(x: number, y: number): Pick<Leader, 'endX' | 'endY' | 'anchor'> {
  return x < 55
    ? { endX: x + REACH, endY: y - REACH * 0.6, anchor: 'start' }
    : { endX: x - REACH, endY: y - REACH * 0.6, anchor: 'end' };
}
