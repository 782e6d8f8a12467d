import type { Json, JsonObject } from './json.ts';
import type { Part } from './working.ts';

/**
 * A record on which many changes are made: none of them copies it. Its order is worked out with the first change that asks
 * for it, and kept as a list of small numbers, in which one is found and moved far faster than a name.
 */
export interface WorkingRecord {
  readonly base: JsonObject;
  /** What stands for an entry of `base`, or was added to it. */
  readonly over: Map<string, Part>;
  order: Order | null;
}

interface Order {
  /** By number. */
  readonly names: string[];
  /** Of the entries there are. */
  readonly numbers: Map<string, number>;
  /** The numbers of the entries, in their order. */
  readonly list: number[];
  /** How many of them have names that are array indices: those come first, whatever was asked for (ECMA-262, OrdinaryOwnPropertyKeys). */
  indices: number;
}

/** The entry of a name; undefined where there is none. */
export function recordEntry({ base, over, order }: WorkingRecord, name: string): Part | undefined {
  if (order !== null && !order.numbers.has(name)) return undefined;
  const there = over.get(name);
  if (there !== undefined || over.has(name)) return there;
  return Object.hasOwn(base, name) ? base[name] : undefined;
}

/** The names of the entries, in their order. */
export function recordKeys({ base, over, order }: WorkingRecord): readonly string[] {
  if (order !== null) return order.list.map((number) => order.names[number] ?? '');
  const isAdded = [...over.keys()].some((name) => !Object.hasOwn(base, name));
  return isAdded ? recordKeys({ base, over, order: orderOf({ base, over, order }) }) : Object.keys(base);
}

/** Puts a value in the place of an entry, or adds it last. */
export function setInRecord(record: WorkingRecord, name: string, value: Part): void {
  if (record.order !== null && !record.order.numbers.has(name)) {
    addTo(record.order, name, record.order.list.length);
  }
  record.over.set(name, value);
}

/** Adds an entry that is not there yet, at a position. */
export function insertInRecord(record: WorkingRecord, name: string, at: number, value: Part): void {
  addTo(orderOf(record), name, at);
  record.over.set(name, value);
}

/** Takes an entry out that is there. */
export function removeFromRecord(record: WorkingRecord, name: string): void {
  const order = orderOf(record);
  order.list.splice(recordPlace(record, name), 1);
  order.numbers.delete(name);
  record.over.delete(name);
  if (isIndex(name)) order.indices -= 1;
}

/** Moves an entry that is there. */
export function moveInRecord(record: WorkingRecord, name: string, at: number): void {
  const order = orderOf(record);
  order.list.splice(recordPlace(record, name), 1);
  if (isIndex(name)) order.indices -= 1;
  addTo(order, name, at);
}

/** The position of an entry that is there. */
export function recordPlace(record: WorkingRecord, name: string): number {
  const order = orderOf(record);
  return order.list.indexOf(order.numbers.get(name) ?? -1);
}

export function recordSize(record: WorkingRecord): number {
  return orderOf(record).list.length;
}

/** The record that the changes have made. */
export function recordOf({ base, over, order }: WorkingRecord, close: (value: Part) => Json): JsonObject {
  if (order === null) {
    const changed = [...over].map(([name, value]): [string, Json] => [name, close(value)]);
    return { ...base, ...Object.fromEntries(changed) };
  }
  return Object.fromEntries(
    order.list.map((number): [string, Json] => {
      const name = order.names[number] ?? '';
      return [name, over.has(name) ? close(over.get(name) ?? null) : (base[name] ?? null)];
    }),
  );
}

function orderOf(record: WorkingRecord): Order {
  if (record.order !== null) return record.order;
  const { base, over } = record;
  const added = [...over.keys()].filter((name) => !Object.hasOwn(base, name));
  const names =
    added.length === 0
      ? Object.keys(base)
      : Object.keys({ ...base, ...Object.fromEntries(added.map((name) => [name, null])) });
  const first = names.findIndex((name) => !isIndex(name));
  record.order = {
    names,
    numbers: new Map(names.map((name, number) => [name, number])),
    list: Array.from(names.keys()),
    indices: first < 0 ? names.length : first,
  };
  return record.order;
}

function addTo(order: Order, name: string, at: number): void {
  const number = order.numbers.get(name) ?? order.names.length;
  order.names[number] = name;
  order.numbers.set(name, number);
  order.list.splice(isIndex(name) ? rankOf(order, name) : Math.max(at, order.indices), 0, number);
  if (isIndex(name)) order.indices += 1;
}

function rankOf({ names, list, indices }: Order, name: string): number {
  let [from, to] = [0, indices];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (Number(names[list[middle] ?? 0]) < Number(name)) from = middle + 1;
    else to = middle;
  }
  return from;
}

const INDEX = /^(?:0|[1-9]\d{0,9})$/;
const HIGHEST_INDEX = 2 ** 32 - 2;

function isIndex(name: string): boolean {
  return INDEX.test(name) && Number(name) <= HIGHEST_INDEX;
}
