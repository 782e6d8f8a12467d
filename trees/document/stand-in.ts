import { z } from 'zod';

/** A schema as zod tells schemas apart: by the `type` of its definition. */
export type Schema = z.core.$ZodTypes;

/** What stands in for a text. */
export const TEXT = '…';

/** Whether a value of this schema can be left out. */
export function isOptional({ _zod: { def } }: Schema): boolean {
  return def.type === 'optional' || def.type === 'default' || def.type === 'prefault';
}

/** Whether a value of this schema is a record or a list, whose members are entries of one kind. */
export function hasEntries(schema: Schema): boolean {
  const { type } = inner(schema)._zod.def;
  return type === 'record' || type === 'array';
}

/** The schema of a field or entry; undefined where there is no such field, or nothing has members. */
export function memberOf(schema: Schema, key: PropertyKey): Schema | undefined {
  const { def } = inner(schema)._zod;
  switch (def.type) {
    case 'object':
      return Object.hasOwn(def.shape, key) ? (def.shape[String(key)] as Schema) : undefined;
    case 'record':
      return def.valueType as Schema;
    case 'array':
      return def.element as Schema;
    default:
      return undefined;
  }
}

/** The least that a schema lets pass; nothing for ids, since a made-up one would refer to what is not there. */
export function standIn(schema: Schema): unknown {
  const { def } = schema._zod;
  switch (def.type) {
    case 'string':
      return z.safeParse(schema, TEXT).success ? TEXT : undefined;
    case 'number':
      return 0;
    case 'literal':
      return def.values[0];
    case 'enum':
      return Object.values(def.entries)[0];
    case 'record':
      return {};
    case 'array': {
      const entry = standIn(def.element as Schema);
      return entry === undefined ? [] : [entry];
    }
    case 'object': {
      const required = Object.entries(def.shape as Readonly<Record<string, Schema>>)
        .filter(([, field]) => !isOptional(field))
        .map(([key, field]) => [key, standIn(field)] as const);
      return required.some(([, value]) => value === undefined) ? undefined : Object.fromEntries(required);
    }
    default:
      return undefined;
  }
}

function inner(schema: Schema): Schema {
  const { def } = schema._zod;
  return 'innerType' in def ? inner(def.innerType as Schema) : schema;
}
