import { describe, expect, test } from 'vitest';
import { parseReading } from '../../trees/belief/index.ts';
import values from './values/letter-codes.json' with { type: 'json' };

describe.each(values.checks)('$id: $source ($basis)', ({ unit, values: codes }) => {
  test.each(Object.entries(codes))('%s is %d, exactly', (code, value) => {
    const parsed = parseReading(code, unit === 'V' ? 'V' : 'ohm');
    expect(parsed).toMatchObject({ ok: true, value });
  });
});
