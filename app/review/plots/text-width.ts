/** Ems a character takes: in the figures' face each the same, in the other on average with some to spare. */
const EMS = { sans: 0.53, mono: 0.64 } as const;

export type Face = keyof typeof EMS;

/** About how many CSS pixels a line of type takes; too much rather than too little. */
export function textWidth(text: string, em: number, face: Face = 'mono'): number {
  return text.length * EMS[face] * em;
}
