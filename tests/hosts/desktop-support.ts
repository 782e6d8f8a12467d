import { EventEmitter } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/message-port';
import type { ContractRouterClient } from '@orpc/contract';
import type { BrowserContext } from '@playwright/test';
import { ensureBuilt } from '../../main/command/build.ts';
import type { contract } from '../../main/contract/index.ts';
import { setStage, toMain, type BrowserWindow, type Stage } from '../support/electron-stand-in.ts';

/** The built main process, as Electron would load it. */
const ENTRY = fileURLToPath(new URL('../../out/main/index.js', import.meta.url));
let starts = 0;

export const freshFile = (): string => join(mkdtempSync(join(tmpdir(), 'ohmward-desktop-')), 'shop.sqlite');

/** Builds the app where its sources have changed. */
export async function builtDesktop(): Promise<void> {
  const built = await ensureBuilt(fileURLToPath(new URL('../..', import.meta.url)), console.log);
  if (!built.ok) throw new Error(`${built.message} ${built.help}`);
}

/** Starts the built desktop host on a stage of its own; the module is loaded anew each time. */
export async function startDesktop(
  context: BrowserContext,
  file = freshFile(),
  prepare: (stage: Stage) => void = () => undefined,
) {
  const stage = setStage(context);
  prepare(stage);
  process.argv = [process.execPath, 'app', `--db=${file}`];
  starts += 1;
  await import(`${ENTRY}?start=${starts}`);
  return { stage, file };
}

export type Client = ContractRouterClient<typeof contract>;

/** A message on the desktop host's one channel that says it comes from this frame, and a client on the port it carries. */
export function connectAs({
  sender,
  senderFrame,
}: {
  readonly sender: unknown;
  readonly senderFrame: unknown;
}): {
  readonly client: Client;
  readonly started: () => boolean;
} {
  const { port1, port2 } = new MessageChannel();
  let started = false;
  const port = Object.assign(new EventEmitter(), {
    start: () => {
      started = true;
      port2.on('message', (data) => port.emit('message', { data }));
    },
    close: () => port2.close(),
    postMessage: (data: unknown) => port2.postMessage(data),
  });
  const carried = port as unknown as Parameters<typeof toMain>[1]['ports'][number];
  toMain('ohmward:connect', { ports: [carried], sender, senderFrame });
  port1.unref();
  return {
    client: createORPCClient(new RPCLink({ port: port1 as unknown as MessagePort })),
    started: () => started,
  };
}

/** A client that asks as the page in this window does; to be called once it has loaded. */
export function asPage({ webContents }: BrowserWindow): Client {
  return connectAs({ sender: webContents, senderFrame: webContents.mainFrame }).client;
}
