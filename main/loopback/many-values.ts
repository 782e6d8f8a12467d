/**
 * Whether a body of JSON has more values than so many, told by its bytes alone: parsing it would take far longer than that where
 * there are millions. Counts no fewer than there are.
 */
export function hasManyValues(body: Uint8Array, most: number): boolean {
  let values = 1;
  let inText = false;
  for (let at = 0; at < body.length; at += 1) {
    const byte = body[at];
    if (inText) {
      if (byte === BACKSLASH) at += 1;
      else if (byte === QUOTE) inText = false;
    } else if (byte === QUOTE) inText = true;
    else if (byte === COMMA || byte === BRACKET || byte === BRACE) {
      values += 1;
      if (values > most) return true;
    }
  }
  return false;
}

const QUOTE = 0x22;
const COMMA = 0x2c;
const BRACKET = 0x5b;
const BACKSLASH = 0x5c;
const BRACE = 0x7b;
