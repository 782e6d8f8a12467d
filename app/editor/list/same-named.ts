/** Trees and drafts by what they are called; the units of a tree that is only a draft are not known here. */
interface Named {
  readonly title: string;
  readonly family?: string;
}

/** Whether a new tree would be called as one that there is, for the same units as far as those are known: allowed, and said. */
export function isSameNamed(known: readonly Named[], title: string, family: string): boolean {
  const [wantedTitle, wantedFamily] = [plain(title), plain(family)];
  if (wantedTitle === '' || wantedFamily === '') return false;
  return known.some(
    (one) =>
      plain(one.title) === wantedTitle && (one.family === undefined || plain(one.family) === wantedFamily),
  );
}

function plain(words: string): string {
  return words.trim().replace(/\s+/g, ' ').toLowerCase();
}
