const LONGEST = 60;

/**
 * An id made of a title: kebab-case, starting with a letter, and not among those taken (`-2`, `-3` … is added where it would
 * be). `otherwise` is used where the title has no letter to start with.
 */
export function newId(title: string, taken: Iterable<string>, otherwise: string): string {
  const all = new Set(taken);
  const words = title
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^\p{ASCII}]/gu, '')
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+/, '')
    .slice(0, LONGEST)
    .replace(/-+$/, '');
  const stem = words === '' ? otherwise : words;
  if (!all.has(stem)) return stem;
  let count = 2;
  while (all.has(`${stem}-${String(count)}`)) count += 1;
  return `${stem}-${String(count)}`;
}
