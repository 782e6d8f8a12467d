/**
 * The lines whose title holds what is searched for, in their order; those called exactly that come first, then those that
 * begin with it, so that Enter takes what was meant; what is to be last stands last.
 */
export function searched<Line extends { readonly title: string; readonly last?: boolean }>(
  lines: readonly Line[],
  search: string,
): readonly Line[] {
  const wanted = search.trim().toLowerCase();
  const rank = ({ title, last = false }: Line): number => {
    if (last) return 3;
    const name = title.toLowerCase();
    if (name === wanted) return 0;
    return name.startsWith(wanted) ? 1 : 2;
  };
  return lines
    .filter(({ title }) => title.toLowerCase().includes(wanted))
    .toSorted((a, b) => rank(a) - rank(b));
}

/** Why no line is shown: there are none at all, or none that is called so. */
export function nothingWords(lines: readonly unknown[]): string {
  return lines.length === 0 ? 'There is nothing to choose from yet.' : 'Nothing here is called that.';
}
