/** Orders texts by their code units, the same on every machine. */
export function byText(one: string, other: string): number {
  return one < other ? -1 : Number(one > other);
}
