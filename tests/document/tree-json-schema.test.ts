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

  it('lets a file leave out, place by place, just what the format says is optional', () => {
    const { $defs, properties } = publishedSchema();
    expect(optionalOf(treeJsonSchema())).toEqual(['summary', 'cautions', 'defaults', 'bench', 'interlocks']);
    expect(optionalOf(properties['unit'])).toEqual(['boards']);
    expect(optionalOf(properties['defaults'])).toEqual([
      'strength',
      'reliability',
      'unlisted',
      'fixRate',
      'escalate',
      'settled',
    ]);
    expect(optionalOf($defs['axis'])).toEqual([]);
    expect(optionalOf($defs['change'])).toEqual(['cautions']);
    expect(optionalOf($defs['interlock'])).toEqual([]);
    expect(optionalOf($defs['test'])).toEqual(['needs', 'cautions', 'reliability', 'picture', 'reading']);
    expect(optionalOf($defs['remedy'])).toEqual(['needs', 'parts', 'disturbs', 'cautions']);
    expect(optionalOf($defs['finding'])).toEqual(['prove', 'expects', 'otherwise']);
    expect(optionalOf($defs['symptom'])).toEqual(['first', 'weights', 'steps']);
    expect(optionalOf($defs['step'])).toEqual([]);
  });

  it('demands steps of a symptom with a first step', () => {
    expect(publishedSchema().$defs['symptom']).toMatchObject({ dependentRequired: { first: ['steps'] } });
  });

  it('refuses unknown fields at every level that has fields', () => {
    const open = objectsIn(treeJsonSchema()).filter(
      (schema) => 'properties' in schema && schema['additionalProperties'] !== false,
    );
    expect(open).toEqual([]);
  });
});

interface Published {
  readonly $defs: Readonly<Record<string, object>>;
  readonly properties: Readonly<Record<string, object>>;
}

function publishedSchema(): Published {
  return JSON.parse(readFileSync(SCHEMA_FILE, 'utf8')) as Published;
}

function optionalOf(schema: unknown): readonly string[] {
  const { properties, required = [] } = schema as { properties: object; required?: readonly string[] };
  return Object.keys(properties).filter((field) => !required.includes(field));
}

function objectsIn(value: unknown): readonly Readonly<Record<string, unknown>>[] {
  if (typeof value !== 'object' || value === null) return [];
  const inside = Object.values(value).flatMap(objectsIn);
  return 'type' in value && value.type === 'object' ? [value, ...inside] : inside;
}
