/**
 * What can be come to from `roots`, each before what it leads to (except on a loop), those listed earlier first. What is in
 * `met` is left out, and what is come to is put into it. Depth first without recursion, as paths can be thousands deep.
 */
export function onwardFrom(
  roots: readonly string[],
  next: (id: string) => readonly string[],
  met = new Set<string>(),
): readonly string[] {
  const left: string[] = [];
  for (const root of roots.toReversed()) {
    if (met.has(root)) continue;
    met.add(root);
    const stack = [{ id: root, waiting: [...next(root)] }];
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const onward = top.waiting.pop();
      if (onward === undefined) {
        left.push(top.id);
        stack.pop();
      } else if (!met.has(onward)) {
        met.add(onward);
        stack.push({ id: onward, waiting: [...next(onward)] });
      }
    }
  }
  return left.reverse();
}
