/** What is written where a unit has no serial that can be read: letters and digits alone, in small letters. */
const PLACEHOLDER =
  /^(?:0*|x*|none|nil|null|na|no|unknown|missing|unreadable|illegible|(?:no|without)(?:serial|sn)(?:number|no)?)$/;

/**
 * Whether a serial says that there is none ("none", "n/a", "?", "000", "no serial", nothing at all), in any case and whatever stands
 * between its letters and digits. It names no unit, so that two jobs that have it are no comeback of each other. Our own list, of
 * English words only: another that a shop writes so is taken for a unit.
 */
export function isPlaceholderSerial(serial: string): boolean {
  return PLACEHOLDER.test(serial.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ''));
}
