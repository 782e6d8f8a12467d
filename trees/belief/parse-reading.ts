import { READING_UNITS, type ReadingUnit } from '../document/index.ts';
import { PREFIXES, UNIT_WRITINGS } from './reading-unit.ts';

/** What was typed, read: the value in the unit's SI base, or `OL`, and the text itself without its outer spaces. */
export type ParsedReading =
  | { readonly ok: true; readonly value: number | 'OL'; readonly typed: string }
  | { readonly ok: false; readonly problem: ReadingProblem };

export interface ReadingProblem {
  readonly code:
    | 'empty'
    | 'too-long'
    | 'not-a-number'
    | 'ambiguous-comma'
    | 'unknown-unit'
    | 'wrong-unit'
    | 'no-prefix'
    | 'unclear-prefix'
    | 'negative-overload'
    | 'out-of-range';
  readonly message: string;
  readonly help: string;
}

/** The longest text that is kept with a reading. */
const LONGEST = 40;
/** Readings smaller or larger than this, in the SI base unit, are no bench instrument's; zero is. */
const SMALLEST = 1e-15;
const LARGEST = 1e15;

const OVERLOAD = /^(?<sign>[+-]?)\s*(?:\.?[o0]\.?l\.?|ovld|overload)(?!\w)\s*(?<tail>.*)$/iu;
/** Digits and a decimal point or comma, an exponent, and what follows: `4.7 kΩ`, `0,47`, `1e3`. */
const PLAIN = /^(?<whole>\d*)(?:(?<point>[.,])(?<part>\d*))?(?:e(?<power>[+-]?\d+))?\s*(?<tail>[^\d.,]*)$/iu;
/** A letter in the decimal mark's place (IEC 60062): `4K7`, `R47`, `3V3`. */
const LETTERED = /^(?<whole>\d*)(?<mark>[A-Za-z\u00b5\u03bc])(?<part>\d+)\s*(?<tail>[^\d.,]*)$/u;

/**
 * Reads a reading as the meter shows it or the part is marked: `4k7`, `3V3`, `R47`, `470m`, `3.30 V`, `0,47`, `1e3`, `OL`.
 * With no unit the test's own is meant. Letter codes: IEC 60062; `3V3` and meters' `OL`: common practice. Never throws;
 * what cannot be read, or could be read two ways, is refused with what to type instead.
 */
export function parseReading(text: string, unit: ReadingUnit): ParsedReading {
  const typed = text.trim();
  if (typed === '')
    return refused('empty', 'No reading was typed.', `Type what the meter shows, in ${title(unit)}.`);
  if (typed.length > LONGEST) {
    return refused(
      'too-long',
      `A reading has at most ${String(LONGEST)} characters.`,
      'Type the number alone.',
    );
  }
  const plain = typed.replace(/\u2212/gu, '-');
  const overload = OVERLOAD.exec(plain)?.groups;
  if (overload !== undefined) return parseOverload(typed, overload, unit);
  const signed = /^(?<sign>[+-]?)\s*(?<rest>.*)$/su.exec(plain)?.groups;
  const number = readNumber(signed?.['rest'] ?? plain, unit);
  if (!number.ok) return number;
  return inRange(typed, `${signed?.['sign'] ?? ''}${number.digits}e${String(number.power)}`);
}

type Groups = Readonly<Record<string, string | undefined>>;
type Refused = Extract<ParsedReading, { ok: false }>;
type Digits = { readonly ok: true; readonly digits: string; readonly power: number };

function parseOverload(typed: string, groups: Groups, unit: ReadingUnit): ParsedReading {
  const scale = readUnit(groups['tail'] ?? '', unit);
  if (!scale.ok) return scale;
  if (groups['sign'] !== '-') return { ok: true, value: 'OL', typed };
  return refused(
    'negative-overload',
    'The meter is over its range on the negative side.',
    'Swap the probes, or choose a higher range, and measure again.',
  );
}

function readNumber(text: string, unit: ReadingUnit): Digits | Refused {
  const lettered = LETTERED.exec(text)?.groups;
  if (lettered !== undefined && lettered['mark']?.toLowerCase() !== 'e') return readLettered(lettered, unit);
  const { whole = '', part = '', point, power, tail = '' } = PLAIN.exec(text)?.groups ?? {};
  if (whole + part === '') return notANumber(text, unit);
  if (point === ',' && part.length === 3 && /^[1-9]\d{0,2}$/u.test(whole)) return ambiguousComma(whole, part);
  const scale = readUnit(tail, unit);
  if (!scale.ok) return scale;
  return { ok: true, digits: `${whole || '0'}.${part}`, power: Number(power ?? 0) + scale.power };
}

function readLettered(groups: Groups, unit: ReadingUnit): Digits | Refused {
  const { whole = '', mark = '', part = '', tail = '' } = groups;
  const markIsUnit = mark.toUpperCase() === UNIT_WRITINGS[unit].mark && (tail === '' || isUnit(tail, unit));
  const scale = readUnit(markIsUnit ? '' : mark + tail, unit);
  if (!scale.ok) return scale;
  return { ok: true, digits: `${whole || '0'}.${part}`, power: scale.power };
}

/** The power of ten that a prefix and unit stand for, checked against the unit wanted. */
function readUnit(text: string, unit: ReadingUnit): { ok: true; power: number } | Refused {
  const tail = text.trim();
  if (tail === '' || isUnit(tail, unit)) return { ok: true, power: 0 };
  const power = PREFIXES.get(tail.charAt(0));
  const rest = tail.slice(1).trim();
  if (power !== undefined && (rest === '' || isUnit(rest, unit))) return prefixed(tail, rest, power, unit);
  const other = READING_UNITS.find((it) => isUnit(tail, it) || (power !== undefined && isUnit(rest, it)));
  if (other === undefined) {
    return refused(
      'unknown-unit',
      `"${tail}" is no unit or prefix that is known here.`,
      `Type the number with p, n, u, m, k, M, G or T where needed; this test is in ${title(unit)}.`,
    );
  }
  return refused(
    'wrong-unit',
    `This test is in ${title(unit)}, and "${tail}" is in ${title(other)}.`,
    `Check the meter's setting and measure again, or type the number in ${title(unit)}.`,
  );
}

function prefixed(
  tail: string,
  rest: string,
  power: number,
  unit: ReadingUnit,
): { ok: true; power: number } | Refused {
  if (!UNIT_WRITINGS[unit].prefixed) {
    return refused(
      'no-prefix',
      `A reading in ${title(unit)} takes no prefix.`,
      'Type the whole number, such as 23.5.',
    );
  }
  if (tail.startsWith('m') && unit === 'Hz' && rest !== '' && rest !== 'Hz') {
    return refused('unclear-prefix', `"${tail}" may be milli or mega.`, 'Type MHz or mHz, or M or m alone.');
  }
  return { ok: true, power };
}

function isUnit(text: string, unit: ReadingUnit): boolean {
  const { symbols, names } = UNIT_WRITINGS[unit];
  return symbols.includes(text) || names.includes(text.toLowerCase());
}

function inRange(typed: string, decimal: string): ParsedReading {
  const value = Number(decimal);
  const size = Math.abs(value);
  const vanished = size === 0 && /[1-9]/u.test(decimal.split('e')[0] ?? '');
  if (!Number.isFinite(value) || size > LARGEST || vanished || (size > 0 && size < SMALLEST)) {
    return refused(
      'out-of-range',
      `"${typed}" is beyond what any bench instrument reads.`,
      'Check the digits and the prefix.',
    );
  }
  return { ok: true, value: size === 0 ? 0 : value, typed };
}

function notANumber(text: string, unit: ReadingUnit): Refused {
  return refused(
    'not-a-number',
    text === '' ? 'There is no number after the sign.' : `"${text}" is not a number.`,
    `Type what the meter shows, such as 4.7, 470m or 4k7, in ${title(unit)}, with nothing between thousands; OL where it is over its range.`,
  );
}

function ambiguousComma(whole: string, part: string): Refused {
  return refused(
    'ambiguous-comma',
    `"${whole},${part}" may be ${whole}.${part} or ${whole}${part}.`,
    `Type ${whole}.${part} or ${whole}${part}.`,
  );
}

function title(unit: ReadingUnit): string {
  return UNIT_WRITINGS[unit].title;
}

function refused(code: ReadingProblem['code'], message: string, help: string): Refused {
  return { ok: false, problem: { code, message, help } };
}
