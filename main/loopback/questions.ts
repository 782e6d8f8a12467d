import type { IncomingMessage } from 'node:http';
import { onError, ORPCError } from '@orpc/server';
import { RPCHandler } from '@orpc/server/fetch';
import { notice, type Answer } from './answer.ts';
import { readBody } from './body.ts';
import { hasManyValues } from './many-values.ts';
import type { Mounted } from './mounted.ts';

export type AnswerQuestion = (request: IncomingMessage, path: string) => Promise<Answer>;

/**
 * Answers what the page asks under `/rpc`, through the services. Questions that come while the records are still being opened
 * wait. `report` gets what was a bug and not an expected failure.
 */
export function createQuestions(mounted: Promise<Mounted>, report: (error: unknown) => void): AnswerQuestion {
  const handler = mounted.then(
    ({ router }) =>
      new RPCHandler(router, {
        interceptors: [onError((error) => (isExpected(error) ? undefined : report(error)))],
      }),
  );
  // Whoever opened the services hears of the failure; without this line it would also end the process as unhandled.
  handler.catch(() => undefined);
  return async (request, path) => {
    const body = await readBody(request);
    if (body === null || hasManyValues(body, MOST_VALUES))
      return { ...notice(413, 'Too much at once', 'Nothing was recorded. Send less.'), headers: CLOSE };
    const { matched, response } = await whileWaitedFor(request, async (signal) => {
      const asked = new Request(`http://127.0.0.1${path}`, {
        method: 'POST',
        headers: fetchHeaders(request),
        body,
        signal,
      });
      return (await handler).handle(asked, { prefix: '/rpc', context: {} });
    });
    if (!matched) return notice(404, 'Not found', 'Ohmward has no such question.');
    const headers = Object.fromEntries(response.headers);
    return { status: response.status, headers, body: new Uint8Array(await response.arrayBuffer()) };
  };
}

/** Values of one question: above what the contract takes at most, below what takes long to parse. */
const MOST_VALUES = 250_000;

const CLOSE = { 'content-type': 'text/html; charset=utf-8', connection: 'close' };

/** Whether an error is an answer of the contract, as against a bug. */
export const isExpected = (error: unknown): boolean =>
  error instanceof ORPCError && (error.defined || error.status < 500);

/** Does what a page waits for; the signal says when it has given it up, or has gone. */
async function whileWaitedFor<T>(
  { socket }: IncomingMessage,
  work: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const abandoned = new AbortController();
  const abandon = (): void => abandoned.abort();
  socket.once('close', abandon);
  try {
    return await work(abandoned.signal);
  } finally {
    socket.off('close', abandon);
  }
}

function fetchHeaders(request: IncomingMessage): Headers {
  const headers = new Headers();
  for (const [name, value] of Object.entries(request.headers)) {
    if (typeof value === 'string' && name !== 'host') headers.set(name, value);
  }
  return headers;
}
