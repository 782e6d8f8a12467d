/** How far down a page of the review was read, by what it was narrowed to. The browser cannot know, as it is made anew. */
let last: { readonly of: string; readonly top: number } | null = null;

/** Remembers how far down the page is read now. */
export function keepPlace(of: string): void {
  last = { of, top: window.scrollY };
}

/** Goes back to where the page was left, once it is laid out again; where it was left narrowed otherwise, it begins at its top. */
export function goBackToPlace(of: string): void {
  const top = last?.of === of ? last.top : 0;
  if (top > 0) requestAnimationFrame(() => requestAnimationFrame(() => window.scrollTo({ top })));
}
