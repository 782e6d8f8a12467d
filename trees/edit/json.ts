/** A JSON value. */
export type Json = null | boolean | number | string | readonly Json[] | JsonObject;

export interface JsonObject {
  readonly [key: string]: Json;
}

/**
 * A tree document in the making: plain JSON as its author has it, with no defaults filled in. It has the shape of the tree
 * schema, but that texts may still be blank.
 */
export type DraftDocument = JsonObject;

/** A record or list, whose entries changes name. */
export type Holder = JsonObject | readonly Json[];

export function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value);
}

export function isRecord(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
