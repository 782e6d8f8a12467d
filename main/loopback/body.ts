import type { IncomingMessage } from 'node:http';

/** Bytes that one request may carry: above the largest tree with its pictures that is taken in, below what would hurt. */
export const BODY_LIMIT_BYTES = 12 * 1024 * 1024;

/** The whole body, or `null` as soon as it is known to be longer than the limit; the rest is then not read. */
export async function readBody(request: IncomingMessage): Promise<Buffer<ArrayBuffer> | null> {
  if (Number(request.headers['content-length'] ?? 0) > BODY_LIMIT_BYTES) return null;
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request.iterator({ destroyOnReturn: false })) {
    const part = Buffer.from(chunk);
    bytes += part.length;
    if (bytes > BODY_LIMIT_BYTES) return null;
    chunks.push(part);
  }
  return Buffer.concat(chunks);
}
