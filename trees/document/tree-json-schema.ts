import { z } from 'zod';
import { treeSchema } from './schema.ts';

/** The JSON Schema (draft 2020-12) of a tree document as written in a file, made from the schema it is read by. */
export function treeJsonSchema(): Readonly<Record<string, unknown>> {
  const made = z.toJSONSchema(treeSchema, { io: 'input', target: 'draft-2020-12' });
  const { $schema, ...schema } = made;
  return {
    $schema,
    title: 'Ohmward tree document, ohmward-tree/1',
    description:
      'Everything a shop knows about finding faults in one family of units. Ids are kebab-case and stable across ' +
      'revisions; readings are in SI base units. The checker holds a document to more than its shape.',
    ...schema,
  };
}
