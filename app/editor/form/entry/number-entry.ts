/** What a number may be. Limits are of the value as the document has it, 0..1 for a share that is typed in per cent. */
export interface NumberRule {
  readonly least?: number;
  readonly above?: number;
  readonly most?: number;
  readonly below?: number;
  /** Typed and shown in per cent, kept as a share. */
  readonly percent?: boolean;
  /** May be left empty; then a default holds. */
  readonly optional?: boolean;
  /** Stands behind the field, and may be typed too: `min`. */
  readonly unit?: string;
}

/** What was typed as a value, undefined where the field was left empty, or why it is none. */
export type Entered<T> =
  { readonly ok: true; readonly value: T | undefined } | { readonly ok: false; readonly wrong: string };

/**
 * Reads a plain number as typed, `0.8`, `0,8`, `12 min` or `98 %`. `1,200` is refused rather than read as either of the two
 * numbers it could be.
 */
export function readNumber(typed: string, rule: NumberRule): Entered<number> {
  const text = withoutUnit(typed.trim(), unitOf(rule));
  if (text === '') {
    return rule.optional === true ? { ok: true, value: undefined } : { ok: false, wrong: 'Type a number.' };
  }
  const grouped = /^([1-9]\d{0,2}),(\d{3})$/.exec(text);
  if (grouped !== null) return { ok: false, wrong: twoWays(grouped[1] ?? '', grouped[2] ?? '') };
  const found = /^([+\-\u2212]?)(\d+(?:[.,]\d*)?|[.,]\d+)(?:e([+-]?\d{1,3}))?$/i.exec(text);
  if (found === null) return { ok: false, wrong: 'Type a plain number, such as 12 or 0.5.' };
  const [, sign, digits = '', exponent = '0'] = found;
  const power = Number(exponent) - (rule.percent === true ? 2 : 0);
  const size = Number(`${digits.replace(',', '.')}e${String(power)}`);
  return within(sign === '' || sign === '+' || size === 0 ? size : -size, rule);
}

/** A number as it is typed: `0.8`, or in per cent where the rule says so. Empty where there is none. */
export function writeNumber(value: number | undefined, rule: NumberRule): string {
  if (value === undefined) return '';
  if (rule.percent !== true) return String(value);
  const [digits = '0', exponent = '0'] = value.toExponential().split('e');
  return String(Number(`${digits}e${String(Number(exponent) + 2)}`));
}

/** The unit that stands behind the field. */
export function unitOf({ percent, unit }: NumberRule): string {
  return percent === true ? '%' : (unit ?? '');
}

function withoutUnit(text: string, unit: string): string {
  return unit !== '' && text.toLowerCase().endsWith(unit.toLowerCase())
    ? text.slice(0, -unit.length).trim()
    : text;
}

function twoWays(whole: string, part: string): string {
  return `“${whole},${part}” may be ${whole}.${part} or ${whole}${part}: type one of them.`;
}

function within(value: number, rule: NumberRule): Entered<number> {
  const { least, above, most, below } = rule;
  const words = (limit: number): string => `${writeNumber(limit, rule)}${suffix(unitOf(rule))}`;
  if (least !== undefined && value < least) return refused(`at least ${words(least)}`);
  if (above !== undefined && value <= above) return refused(`more than ${words(above)}`);
  if (most !== undefined && value > most) return refused(`at most ${words(most)}`);
  if (below !== undefined && value >= below) return refused(`less than ${words(below)}`);
  return { ok: true, value };
}

function suffix(unit: string): string {
  return unit === '' ? '' : `\u00a0${unit}`;
}

function refused(limit: string): Entered<number> {
  return { ok: false, wrong: `This must be ${limit}.` };
}
