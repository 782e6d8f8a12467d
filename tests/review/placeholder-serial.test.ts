import { expect, test } from 'vitest';
import { isPlaceholderSerial } from '../../trees/review/index.ts';

test.each([
  '',
  ' ',
  '?',
  '-',
  '---',
  '0',
  '0000',
  'x',
  'XXX',
  'n/a',
  'N.A.',
  'None',
  'unknown',
  'no serial',
  'No S/N',
  'without serial no.',
])('"%s" says that there is no serial', (serial) => expect(isPlaceholderSerial(serial)).toBe(true));

test.each(['1', '0010', 'KW-000123', 'X1', 'NA4471', 'None7', 'UNKNOWN-2', 'Я', 'no12', 'sn-77'])(
  '"%s" is a serial',
  (serial) => expect(isPlaceholderSerial(serial)).toBe(false),
);
