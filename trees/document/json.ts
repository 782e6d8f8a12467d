/** A JSON value. */
export type Json = null | boolean | number | string | readonly Json[] | JsonObject;

export interface JsonObject {
  readonly [key: string]: Json;
}

/** Whether a value is a list. */
export function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value);
}

/** Whether a value is a record: neither a list, nor null, nor plain. */
export function isRecord(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
