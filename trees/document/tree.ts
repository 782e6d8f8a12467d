import type { z } from 'zod';
import type { INSTRUMENTS, READING_UNITS, treeSchema } from './schema.ts';

type DeepReadonly<T> = T extends (infer U)[]
  ? readonly DeepReadonly<U>[]
  : T extends object
    ? { readonly [K in keyof T]: DeepReadonly<T[K]> }
    : T;

/**
 * A tree document as read: every default filled in, every record without a prototype (so that an id such as
 * `constructor` looks up nothing but its own entry).
 */
export type Tree = DeepReadonly<z.output<typeof treeSchema>>;

export type Instrument = (typeof INSTRUMENTS)[number];
export type ReadingUnit = (typeof READING_UNITS)[number];

type Entry<M> = M extends Readonly<Record<string, infer V>> ? V : never;

export type Axis = Entry<Tree['bench']>;
export type Change = Axis['changes'][number];
export type Interlock = Tree['interlocks'][number];
export type Test = Entry<Tree['tests']>;
export type Result = Entry<Test['results']>;
export type Band = NonNullable<Result['band']>;
export type Picture = NonNullable<Test['picture']>;
export type Finding = Entry<Tree['findings']>;
export type Remedy = Finding['remedy'];
export type Symptom = Entry<Tree['symptoms']>;
export type Step = Entry<Symptom['steps']>;
export type Branch = Entry<Step['then']>;

/** Bench state wanted or held: axis id to state id. */
export type Needs = Test['needs'];
