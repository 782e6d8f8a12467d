import { hourlyRateSchema } from '../../../main/contract/index.ts';

/** What was typed as the hourly rate: a rate, null where the field was left empty, or why it is none. */
export type RateEntry =
  { readonly ok: true; readonly rate: number | null } | { readonly ok: false; readonly wrong: string };

/**
 * Reads an hourly rate as typed, `45` or `45.50`; a comma may stand for the point. `1,200` is refused rather than read as
 * either of the two rates it could be.
 */
export function readRate(typed: string): RateEntry {
  const text = typed.trim();
  if (text === '') return { ok: true, rate: null };
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) return { ok: false, wrong: GROUPED };
  if (!/^\d+([.,]\d+)?$/.test(text)) return { ok: false, wrong: NO_NUMBER };
  const read = hourlyRateSchema.safeParse(Number(text.replace(',', '.')));
  if (!read.success) return { ok: false, wrong: read.error.issues[0]?.message ?? NO_NUMBER };
  return { ok: true, rate: read.data };
}

const NO_NUMBER = 'Type a plain number such as 45 or 45.50, without a currency; or leave it empty.';
const GROUPED = 'Type it without a comma between the thousands, such as 1200.';
