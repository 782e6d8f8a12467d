/** An element of an SCXML document as read back from its text. */
export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Node[];
  readonly parent: Node | null;
}

const TOKEN = /<\?xml version="1\.0" encoding="UTF-8"\?>|<\/(\w+)>|<(\w+)((?: \w+="[^"<&]*")*)(\/?)>|\s+/y;

/**
 * Reads the plain XML that the export writes: elements and double-quoted attributes, nothing else. Throws at the first
 * character that is something else, and where tags do not match. (That it is XML at large is shown by the interpreter's
 * own parser taking it.)
 */
export function readDocument(text: string): Node {
  const top: { children: Node[] } = { children: [] };
  let open: (Node & { children: Node[] }) | null = null;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const at = TOKEN.lastIndex;
    const [, closed, opened, pairs = '', empty] = TOKEN.exec(text) ?? [];
    if (TOKEN.lastIndex === 0) throw new Error(`Not XML as it is written here: ${text.slice(at, at + 60)}`);
    if (closed !== undefined) {
      if (open?.name !== closed) throw new Error(`</${closed}> closes <${open?.name ?? ''}>`);
      open = open.parent as typeof open;
    }
    if (opened === undefined) continue;
    const node: Node & { children: Node[] } = {
      name: opened,
      attributes: readPairs(pairs),
      children: [],
      parent: open,
    };
    (open ?? top).children.push(node);
    if (empty === '') open = node;
  }
  const [root] = top.children;
  if (root === undefined || top.children.length !== 1 || open !== null)
    throw new Error('One root element is wanted.');
  return root;
}

/** The element and all below it, in document order. */
export function allNodes(node: Node): readonly Node[] {
  return [node, ...node.children.flatMap(allNodes)];
}

function readPairs(pairs: string): Readonly<Record<string, string>> {
  const read = [...pairs.matchAll(/ (\w+)="([^"]*)"/g)].map(([, key = '', value = '']): [string, string] => [
    key,
    value,
  ]);
  if (new Set(read.map(([key]) => key)).size !== read.length) throw new Error(`An attribute twice:${pairs}`);
  return Object.fromEntries(read);
}
