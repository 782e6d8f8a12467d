import { createServer, type IncomingMessage, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { json, notice, send, type Answer } from './answer.ts';
import { isQuestion, refusalOf } from './guard.ts';
import { answersTo } from './instance.ts';
import type { Page } from './page.ts';
import type { AnswerQuestion } from './questions.ts';
import { createTokens, secret, type Tokens } from './tokens.ts';

export interface ServerOptions {
  readonly page: Page;
  readonly answerQuestion: AnswerQuestion;
  /** Shared with a second start through the instance file. */
  readonly instanceSecret: string;
  /** Milliseconds, never going back. */
  readonly now: () => number;
  readonly report: (error: unknown) => void;
  /** Taken where it is free. */
  readonly preferredPort: number;
}

export interface LoopbackServer {
  readonly port: number;
  /** A new address that lets one browser in, once, within the token's lifetime. */
  readonly freshAddress: () => string;
  readonly close: () => Promise<void>;
}

/** Listens on 127.0.0.1 only, at the preferred port where that is free, else at a port of the system's choosing. */
export async function listen(options: ServerOptions): Promise<LoopbackServer> {
  const tokens = createTokens(options.now);
  const sessions = new Set<string>();
  const server = createServer();
  const port = await listening(server, options.preferredPort).catch(() => listening(server, ANY_PORT));
  const rooms: Rooms = { ...options, tokens, sessions, port };
  server.on('request', (request, response) => {
    void answer(request, rooms)
      .catch((error: unknown) => {
        options.report(error);
        return notice(
          500,
          'Ohmward made a mistake',
          'Nothing was lost. Try again; if it stays, start Ohmward again.',
        );
      })
      .then((found) => send(response, found, request.method !== 'HEAD'));
  });
  return { port, freshAddress: () => addressOf(port, tokens.issue()), close: () => closing(server) };
}

/** Where a browser is let in with this token. */
export const addressOf = (port: number, token: string): string =>
  `http://127.0.0.1:${port}/enter?token=${token}`;

interface Rooms extends ServerOptions {
  readonly tokens: Tokens;
  readonly sessions: Set<string>;
  readonly port: number;
}

async function answer(request: IncomingMessage, rooms: Rooms): Promise<Answer> {
  const { method = '', url = '' } = request;
  const [path = '', query = ''] = url.split('?', 2);
  const refusal = refusalOf({ method, path, headers: request.headers }, rooms.port);
  if (refusal !== null) return notice(refusal.status, 'Not from here', refusal.reason);
  if (path === '/instance') return tellSecondStart(request, rooms);
  if (path === '/enter') return enter(method, new URLSearchParams(query).get('token') ?? '', rooms);
  if (!hasSession(request, rooms)) return notice(403, 'Ohmward does not know this browser', HOW_TO_ENTER);
  if (isQuestion(path)) return rooms.answerQuestion(request, url);
  const file = rooms.page.get(path);
  if (file === undefined)
    return notice(404, 'Not found', 'Ohmward has no such page. <a href="/">Go to the first page.</a>');
  return { status: 200, headers: { 'content-type': file.type }, body: file.body };
}

const HOW_TO_ENTER =
  'Each address that Ohmward prints works once and for a few minutes. Start Ohmward again: it finds the one that is running and opens it.';

function tellSecondStart(request: IncomingMessage, { instanceSecret, tokens }: Rooms): Answer {
  const reply = answersTo(request.headers.authorization ?? '', instanceSecret, tokens.issue);
  return reply === null
    ? notice(403, 'Not from here', 'Only another start of Ohmward may ask this.')
    : json(200, reply);
}

function enter(method: string, token: string, { tokens, sessions, port }: Rooms): Answer {
  // HEAD is what link previews send; it must not use the token up.
  if (method !== 'GET' || !tokens.spend(token))
    return notice(403, 'This address has been used or is too old', HOW_TO_ENTER);
  const session = secret();
  sessions.add(session);
  const cookie = `${cookieName(port)}=${session}; Path=/; HttpOnly; SameSite=Strict`;
  return { status: 303, headers: { location: '/', 'set-cookie': cookie }, body: '' };
}

/** Cookies do not tell ports apart, so two shops' databases open at once need two names. */
const cookieName = (port: number): string => `ohmward-${port}`;

function hasSession(request: IncomingMessage, { sessions, port }: Rooms): boolean {
  const cookies = (request.headers.cookie ?? '').split('; ');
  return cookies.some((cookie) => {
    const [name, value = ''] = cookie.split('=', 2);
    return name === cookieName(port) && sessions.has(value);
  });
}

const ANY_PORT = 0;

function listening(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });
}

const CLOSING_LIMIT_MS = 2_000;

function closing(server: Server): Promise<void> {
  return new Promise((resolve) => {
    // What is being answered is answered; who keeps the line open without asking is cut off.
    const patience = setTimeout(() => server.closeAllConnections(), CLOSING_LIMIT_MS);
    server.close(() => {
      clearTimeout(patience);
      resolve();
    });
  });
}
