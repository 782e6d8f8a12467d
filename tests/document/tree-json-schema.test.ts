import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { treeJsonSchema } from '../../trees/document/index.ts';
import { SCHEMA_FILE, schemaText } from '../support/write-json-schema.ts';

describe('the published JSON Schema', () => {
  it('is the one made from the schema the reader uses', async () => {
    const remake = 'remake it: node tests/support/write-json-schema.ts';
    expect(readFileSync(SCHEMA_FILE, 'utf8') === (await schemaText()), remake).toBe(true);
  });

  it('demands of a file only what has no default', () => {
    expect(treeJsonSchema()['required']).toEqual([
      'format',
      'id',
      'title',
      'unit',
      'tests',
      'findings',
      'symptoms',
    ]);
  });

  it('refuses unknown fields at every level that has fields', () => {
    const open = objectsIn(treeJsonSchema()).filter(
      (schema) => 'properties' in schema && schema['additionalProperties'] !== false,
    );
    expect(open).toEqual([]);
  });
});

function objectsIn(value: unknown): readonly Readonly<Record<string, unknown>>[] {
  if (typeof value !== 'object' || value === null) return [];
  const inside = Object.values(value).flatMap(objectsIn);
  return 'type' in value && value.type === 'object' ? [value, ...inside] : inside;
}
