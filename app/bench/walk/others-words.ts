/** How many findings there are besides those shown. */
export function othersWords(count: number): string {
  return count === 1 ? '1 other' : `${String(count)} others`;
}
