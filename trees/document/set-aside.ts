import type { z } from 'zod';
import { pathOf, pointerOf } from './pointer.ts';
import type { Problem } from './problem.ts';
import { treeSchema } from './schema.ts';
import { hasEntries, isOptional, memberOf, standIn, TEXT, type Schema } from './stand-in.ts';
import type { Tree } from './tree.ts';
import { isHolder, valueAt } from './value-at.ts';

/**
 * What is left of a document of the wrong shape once its broken parts have been set aside, so that what the rest of it means
 * can be checked in the same go.
 */
export interface Remains {
  readonly tree: Tree;
  /**
   * Takes what the checker says of {@link Remains.tree} back to the document: gives every problem its place there (list entries
   * set aside have moved up those after them) and leaves out those that may be nothing but echoes of what was set aside.
   */
  readonly inDocument: (problems: readonly Problem[]) => readonly Problem[];
}

type Path = readonly PropertyKey[];

/** A value on the way to a broken one: where it is, the schema it is held to, and whether it is an entry of a record or list. */
interface Place {
  readonly holder: Record<PropertyKey, unknown>;
  readonly key: PropertyKey;
  readonly schema: Schema;
  readonly isEntry: boolean;
}

interface Work {
  readonly document: unknown;
  /** By list of the document as it is now, once entries have gone: the indices that those left had at first. */
  readonly indices: Map<unknown, readonly number[]>;
  /** Entries to be taken out of lists, once no index is needed any more. */
  readonly leaving: Map<unknown[], Set<number>>;
  /** Pointers into the document as it was. */
  readonly aside: Set<string>;
}

/** Mending one thing can break another (a list that must not be empty), but hardly ever twice over. */
const ROUNDS = 8;

/**
 * Sets the broken parts of a parsed document aside. Unknown fields go; a broken field goes if it is optional; a broken entry of a
 * record or list goes; a required text, number, choice, list or record is replaced by a harmless stand-in; and anything else
 * takes what it is a part of with it. `lost` are places (pointers) of which it is known that something has been lost.
 * Null where nothing is left to be checked.
 */
export function setAside(document: unknown, lost: readonly string[]): Remains | null {
  const copy: unknown = JSON.parse(JSON.stringify(document));
  const work: Work = { document: copy, indices: new Map(), leaving: new Map(), aside: new Set(lost) };
  for (let round = 0; round < ROUNDS; round += 1) {
    const read = treeSchema.safeParse(copy);
    if (read.success) return { tree: read.data, inDocument: (problems) => taken(work, problems) };
    if (read.error.issues.some(({ path }) => path.length === 0 && !isHolder(copy))) return null;
    for (const issue of read.error.issues) mend(work, issue);
    compact(work);
  }
  return null;
}

function mend(work: Work, issue: z.core.$ZodIssue): void {
  if (issue.code === 'unrecognized_keys') {
    const holder = valueAt(work.document, issue.path);
    if (isHolder(holder)) for (const key of issue.keys) Reflect.deleteProperty(holder, key);
    return;
  }
  const places = placesAlong(work.document, issue.path);
  for (let depth = places.length; depth > 0; depth -= 1) {
    const place = places[depth - 1];
    if (place !== undefined && mendAt(work, place, issue.path.slice(0, depth))) return;
  }
  // Only the tree's own id has no stand-in of its kind and no part of the tree to take with it.
  const [top] = places;
  if (top !== undefined) top.holder[top.key] = 'stand-in';
}

function mendAt(work: Work, { holder, key, schema, isEntry }: Place, path: Path): boolean {
  if (isEntry || isOptional(schema)) {
    work.aside.add(pointerOf(pathAtFirst(work, path)));
    if (Array.isArray(holder)) leave(work, holder, Number(key));
    else Reflect.deleteProperty(holder, key);
    return true;
  }
  const value = standIn(schema);
  if (value === undefined) return false;
  holder[key] = value;
  // No check draws conclusions from a text or from minutes and prices, as several do from choices, lists and records.
  if (value !== TEXT && value !== 0) work.aside.add(pointerOf(pathAtFirst(work, path)));
  return true;
}

function placesAlong(document: unknown, path: Path): readonly Place[] {
  const places: Place[] = [];
  let holder = document;
  let schema: Schema | undefined = treeSchema;
  for (const key of path) {
    const isEntry = hasEntries(schema);
    schema = memberOf(schema, key);
    if (schema === undefined || !isHolder(holder)) break;
    places.push({ holder, key, schema, isEntry });
    holder = Object.hasOwn(holder, key) ? holder[key] : undefined;
  }
  return places;
}

function leave(work: Work, list: unknown[], index: number): void {
  const leaving = work.leaving.get(list);
  if (leaving === undefined) work.leaving.set(list, new Set([index]));
  else leaving.add(index);
}

function compact({ leaving, indices }: Work): void {
  for (const [list, gone] of leaving) {
    const before = indices.get(list) ?? [...list.keys()];
    const stays = (_: unknown, index: number): boolean => !gone.has(index);
    indices.set(list, before.filter(stays));
    list.splice(0, list.length, ...list.filter(stays));
  }
  leaving.clear();
}

/** The path that a value had before entries of lists were set aside. */
function pathAtFirst({ document, indices }: Work, path: Path): Path {
  let value = document;
  return path.map((key) => {
    const first = indices.get(value)?.[Number(key)] ?? key;
    value = isHolder(value) && Object.hasOwn(value, key) ? value[key] : undefined;
    return first;
  });
}

/** {@link Remains.inDocument}. A place is broken if it, something in it or something it is in has been set aside. */
function taken(work: Work, problems: readonly Problem[]): readonly Problem[] {
  const { aside } = work;
  const parents = new Set([...aside].map((pointer) => pointer.slice(0, pointer.lastIndexOf('/'))));
  const around = new Set([...aside].flatMap(withAncestors));
  const first = (pointer: string): string => pointerOf(pathAtFirst(work, pathOf(pointer)));
  const isBroken = (place: string): boolean => {
    const whole = place.endsWith('/*') ? place.slice(0, -2) : place;
    if (whole === place ? around.has(place) : parents.has(whole)) return true;
    return withAncestors(whole).some((pointer) => aside.has(pointer));
  };
  return problems
    .filter(({ restsOn = [] }) => !restsOn.some((place) => isBroken(first(place))))
    .map(({ severity, rule, at, message, help }) => ({ severity, rule, at: first(at), message, help }));
}

function withAncestors(pointer: string): readonly string[] {
  const pointers: string[] = [];
  for (let end = pointer.length; end > 0; end = pointer.lastIndexOf('/', end - 1)) {
    pointers.push(pointer.slice(0, end));
  }
  return pointers;
}
