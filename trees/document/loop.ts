/**
 * The loops of a graph given as each node's onward nodes: one for every set of nodes that can all reach each other
 * (a strongly connected component; Tarjan 1972), as the nodes of one shortest round, its lowest node first.
 * Iterative, so that no path is too long for it; nodes x edges at most once each for finding the sets.
 */
export function loopsOf(onward: readonly (readonly number[])[]): readonly (readonly number[])[] {
  return components(onward)
    .filter((nodes) => nodes.length > 1 || onward[nodes[0] ?? -1]?.includes(nodes[0] ?? -1) === true)
    .map((nodes) => shortestRound(onward, nodes))
    .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
}

function components(onward: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const found: number[][] = [];
  const seen = new Int32Array(onward.length).fill(-1);
  const lowest = new Int32Array(onward.length);
  const waiting: number[] = [];
  const isWaiting = new Uint8Array(onward.length);
  let count = 0;

  function enter(node: number, calls: [number, number][]): void {
    seen[node] = lowest[node] = count;
    count += 1;
    waiting.push(node);
    isWaiting[node] = 1;
    calls.push([node, 0]);
  }

  function leave(node: number): void {
    if (lowest[node] !== seen[node]) return;
    const members = waiting.splice(waiting.lastIndexOf(node));
    for (const member of members) isWaiting[member] = 0;
    found.push(members);
  }

  onward.forEach((_, root) => {
    if (seen[root] !== -1) return;
    const calls: [number, number][] = [];
    enter(root, calls);
    for (let call = calls.at(-1); call !== undefined; call = calls.at(-1)) {
      const [node, edge] = call;
      const next = onward[node]?.[edge];
      call[1] += 1;
      if (next === undefined) {
        calls.pop();
        leave(node);
        const [caller] = calls.at(-1) ?? [node];
        lowest[caller] = Math.min(lowest[caller] ?? 0, lowest[node] ?? 0);
      } else if (seen[next] === -1) {
        enter(next, calls);
      } else if (isWaiting[next] === 1) {
        lowest[node] = Math.min(lowest[node] ?? 0, seen[next] ?? 0);
      }
    }
  });
  return found;
}

function shortestRound(onward: readonly (readonly number[])[], nodes: readonly number[]): readonly number[] {
  const members = new Set(nodes);
  const start = nodes.reduce((low, node) => Math.min(low, node));
  const cameFrom = new Map<number, number>();
  const queue = [start];
  for (const node of queue) {
    for (const next of onward[node] ?? []) {
      if (!members.has(next) || cameFrom.has(next)) continue;
      cameFrom.set(next, node);
      queue.push(next);
    }
  }
  const round = [start];
  for (let node = cameFrom.get(start); node !== undefined && node !== start; node = cameFrom.get(node)) {
    round.splice(1, 0, node);
  }
  return round;
}
