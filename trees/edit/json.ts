import { isList, isRecord, type Json, type JsonObject } from '../document/index.ts';

export { isList, isRecord, type Json, type JsonObject };

/**
 * A tree document in the making: plain JSON as its author has it, with no defaults filled in. It has the shape of the tree
 * schema, but that texts may still be blank.
 */
export type DraftDocument = JsonObject;

/** A record or list, whose entries changes name. */
export type Holder = JsonObject | readonly Json[];
