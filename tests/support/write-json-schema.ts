import { writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { treeJsonSchema } from '../../trees/document/index.ts';

/** Where the published JSON Schema of the tree document stands. */
export const SCHEMA_FILE = new URL('../../trees/document/ohmward-tree-1.schema.json', import.meta.url);

/** The file's text as it should be now. */
export async function schemaText(): Promise<string> {
  return format(JSON.stringify(treeJsonSchema()), { parser: 'json', printWidth: 110 });
}

if (import.meta.main) writeFileSync(SCHEMA_FILE, await schemaText());
