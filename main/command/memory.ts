import { getHeapStatistics } from 'node:v8';

/** What the limit has in it for objects that do not last; those that are kept cannot fill it. */
const PASSING_BYTES = 192 * 1024 * 1024;

/** Whether so much memory is in use that what can stop should: a process that goes on taking more is soon ended. */
export function isMemoryShort(): boolean {
  const { used_heap_size: used, heap_size_limit: limit } = getHeapStatistics();
  return used > Math.max(0.7 * (limit - PASSING_BYTES), 0.3 * limit);
}
