import { refuse, type Refusal } from '../refusal.ts';
import { urlTarget } from './attribute.ts';
import type { Drawn } from './drawing.ts';

const SHOWN_AT_MOST = 200_000;
const REFERENCES_DEEP = 8;

/** Properties that what is in an element inherits: each part in it is painted by what they refer to. */
const PAINTS = ['fill', 'stroke'] as const;
const MARKERS = ['marker-start', 'marker-mid', 'marker-end'] as const;
const ONCE = ['clip-path', 'mask'] as const;

/** How much there is to draw below an element, with everything it refers to drawn anew each time. */
interface Count {
  /** Parts, with uses unfolded. */
  readonly parts: number;
  /** Corners of their outlines, where markers would stand. */
  readonly corners: number;
  /** All that is drawn: parts, and what paints, marks, clips and masks them. */
  readonly shown: number;
  /** How many references follow one another. */
  readonly deep: number;
}

type Known = Map<Drawn, Count | 'counting'>;
const NOTHING: Count = { parts: 0, corners: 0, shown: 0, deep: 0 };

/**
 * Whether a drawing is beyond what can be shown in reasonable time once what it refers to is drawn at every reference, or refers
 * to itself: a few lines of uses of uses stand for billions of parts. Null where it is not.
 */
export function tooMuchShown(root: Drawn): Refusal | null {
  const byId = new Map<string, Drawn>();
  note(root, byId);
  const { shown, deep } = counted(root, byId, new Map(), 0);
  if (deep > REFERENCES_DEEP)
    return refuse(
      `Parts of the drawing refer to one another more than ${String(REFERENCES_DEEP)} levels deep, or in a circle.`,
      'Have a drawing program turn clones into plain shapes, and take that.',
    );
  if (shown <= SHOWN_AT_MOST) return null;
  return refuse(
    `The drawing repeats its parts more than ${String(SHOWN_AT_MOST)} times.`,
    'Simplify it in a drawing program, or save it as a PNG, and take that.',
  );
}

/** The first of an id is the one that references find. */
function note(drawn: Drawn, byId: Map<string, Drawn>): void {
  const id = drawn.attributes.get('id');
  if (id !== undefined && !byId.has(id)) byId.set(id, drawn);
  for (const part of drawn.within) if (typeof part !== 'string') note(part, byId);
}

function counted(drawn: Drawn, byId: ReadonlyMap<string, Drawn>, known: Known, level: number): Count {
  const before = known.get(drawn);
  if (before === 'counting' || level > REFERENCES_DEEP) return { ...NOTHING, deep: REFERENCES_DEEP + 1 };
  if (before !== undefined) return before;
  known.set(drawn, 'counting');
  const target = (id: string | null): Count | null => {
    const found = id === null ? undefined : byId.get(id);
    return found === undefined ? null : counted(found, byId, known, level + 1);
  };
  const within = drawn.within.flatMap((part) =>
    typeof part === 'string' ? [] : [counted(part, byId, known, level)],
  );
  const used = target(drawn.attributes.get('href')?.slice(1) ?? null);
  const count = withReferences(drawn, sum(drawn, within, used), target);
  known.set(drawn, count);
  return count;
}

function sum(drawn: Drawn, within: readonly Count[], used: Count | null): Count {
  const all = used === null ? within : [...within, { ...used, deep: used.deep + 1 }];
  const add = (of: (count: Count) => number): number => all.reduce((total, count) => total + of(count), 0);
  return {
    parts: 1 + add(({ parts }) => parts),
    corners: cornersOf(drawn) + add(({ corners }) => corners),
    shown: 1 + add(({ shown }) => shown),
    deep: Math.max(0, ...all.map(({ deep }) => deep)),
  };
}

function withReferences(drawn: Drawn, plain: Count, target: (id: string | null) => Count | null): Count {
  const times = [
    ...PAINTS.map((name) => [name, plain.parts] as const),
    ...MARKERS.map((name) => [name, plain.corners] as const),
    ...ONCE.map((name) => [name, 1] as const),
  ];
  let { shown, deep } = plain;
  for (const [name, count] of times) {
    const referred = target(urlTarget(drawn.attributes.get(name) ?? ''));
    if (referred === null) continue;
    shown += count * referred.shown;
    deep = Math.max(deep, referred.deep + 1);
  }
  return { ...plain, shown, deep };
}

/** No fewer than there are: an outline's corner takes a number or a letter at least. */
function cornersOf({ attributes }: Drawn): number {
  const outline = attributes.get('d') ?? attributes.get('points');
  return outline === undefined ? 2 : (outline.match(/\d+|[a-z]/gi)?.length ?? 0) + 1;
}
