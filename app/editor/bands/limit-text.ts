import { formatReading, parseReading } from '../../../trees/belief/index.ts';
import type { ReadingUnit } from '../../../trees/document/index.ts';

/** What a limit is in: the test's unit, or null where it is a ratio. */
export type LimitUnit = ReadingUnit | null;

/** A limit as it is typed: its value, undefined for an open end, or why it is none. */
export type TypedLimit =
  { readonly ok: true; readonly value: number | undefined } | { readonly ok: false; readonly wrong: string };

/** A limit as the trade writes it, with every digit it has: `3.135 V`, `4.7 kΩ`; a ratio as a plain number. Open: ''. */
export function limitText(value: number | undefined, unit: LimitUnit): string {
  if (value === undefined || !Number.isFinite(value)) return '';
  if (unit === null) return String(value);
  const short = formatReading(value, unit);
  const read = parseReading(short, unit);
  return read.ok && read.value === value ? short : `${String(value)} ${formatReading(0, unit).slice(2)}`;
}

/** A limit in running words; of more digits than a meter shows, only those. */
export function limitWords(value: number, unit: LimitUnit): string {
  return unit === null ? String(Number(value.toPrecision(6))) : formatReading(value, unit);
}

/** A reading in running words, rounded to as many digits as tell it from others. */
export function placeWords(value: number, unit: LimitUnit): string {
  return limitWords(Number(value.toPrecision(4)), unit);
}

/** Reads a limit as one types a reading; a ratio as a number or in percent. Nothing typed is an open end. */
export function readLimit(text: string, unit: LimitUnit): TypedLimit {
  if (text.trim() === '') return { ok: true, value: undefined };
  if (unit === null) return readRatio(text.trim());
  const read = parseReading(text, unit);
  if (!read.ok) return { ok: false, wrong: `${read.problem.message} ${read.problem.help}` };
  if (read.value !== 'OL') return { ok: true, value: read.value };
  return { ok: false, wrong: 'OL is beyond every limit. Leave the field empty for a band without an end.' };
}

function readRatio(text: string): TypedLimit {
  const { digits, percent } =
    /^(?<digits>[+-]?\d*[.,]?\d*(?:e[+-]?\d+)?)\s*(?<percent>%?)$/iu.exec(text)?.groups ?? {};
  if (digits === undefined || !/^[+-]?[.,]?\d/.test(digits)) {
    return { ok: false, wrong: `"${text}" is not a ratio. Type a number such as 0.96, or 96 %.` };
  }
  const value = Number(digits.replace(',', '.'));
  return { ok: true, value: percent === '%' ? Number((value / 100).toPrecision(15)) : value };
}
