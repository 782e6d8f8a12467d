import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import type { ContextBridge, IpcMainEvent, IpcRenderer, MessagePortMain, WebFrameMain } from 'electron';
import type { CDPSession, Page, Route } from '@playwright/test';
import { z } from 'zod';
import { preventable, type Stage } from './electron-stand-in.ts';

/** What the stand-in's window shows: a page of real Chromium. */
export interface PageSide {
  readonly page: Page;
  /** Texts that the main process sent to the page over its ports. */
  readonly told: readonly string[];
}

export interface Load {
  readonly stage: Stage;
  readonly url: string;
  readonly preload: string;
  readonly contents: EventEmitter & { readonly mainFrame: Pick<WebFrameMain, 'url'> };
  readonly toMain: (
    channel: string,
    event: Pick<IpcMainEvent, 'ports'> & { sender: unknown; senderFrame: unknown },
  ) => void;
}

/** Chromium alone knows no custom scheme: each of its hosts stands as an https host that no network has. */
export const asHttps = (url: string): string =>
  url.replace(/^(ohmward-app):\/\/([^/]+)/, 'https://$2.$1.test');
const asScheme = (url: string): string => url.replace(/^https:\/\/([^./]+)\.(ohmward-app)\.test/, '$2://$1');

/** Loads an address of the scheme into a new page, with the built preload in a world of its own before the page's scripts. */
export async function loadInPage(load: Load): Promise<PageSide> {
  const page = await load.stage.context.newPage();
  const told: string[] = [];
  await page.route('**/*', (route) => serve(route, load, page));
  await injectPreload(page, load, told);
  Object.defineProperty(load.contents.mainFrame, 'url', { get: () => asScheme(page.url()) });
  await page.goto(asHttps(load.url));
  return { page, told };
}

async function serve(route: Route, { stage, contents }: Load, page: Page): Promise<void> {
  const request = route.request();
  const url = asScheme(request.url());
  const isFirst = page.url() === 'about:blank';
  if (
    request.isNavigationRequest() &&
    !isFirst &&
    isPrevented(contents, url, request.frame() === page.mainFrame())
  ) {
    return route.abort('aborted');
  }
  const handler = stage.handlers.get(url.slice(0, url.indexOf(':')));
  if (handler === undefined) return ask(route, stage, url);
  const response = await handler(new Request(url, { method: request.method() }));
  const headers = Object.fromEntries(response.headers);
  return route.fulfill({ status: response.status, headers, body: Buffer.from(await response.arrayBuffer()) });
}

function isPrevented(contents: EventEmitter, url: string, isMainFrame: boolean): boolean {
  const event = preventable({ url, isMainFrame });
  contents.emit('will-frame-navigate', event);
  if (isMainFrame) contents.emit('will-navigate', event);
  return event.defaultPrevented;
}

/** What goes to the network goes by the session's rule; nothing of it is ever let out of here. */
async function ask(route: Route, { beforeRequest }: Stage, url: string): Promise<void> {
  const details = { url } as Parameters<NonNullable<Stage['beforeRequest']>>[0];
  let isCancelled = false;
  beforeRequest?.(details, ({ cancel = false }) => {
    isCancelled = cancel;
  });
  return isCancelled
    ? route.abort('blockedbyclient')
    : route.fulfill({ status: 200, body: 'from the network' });
}

const WORLD = 'preload';
const sentSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('post'), channel: z.string(), ports: z.array(z.string()) }),
  z.object({ kind: z.literal('say'), port: z.string(), data: z.string() }),
]);

async function injectPreload(page: Page, { preload, contents, toMain }: Load, told: string[]): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  const ports = new Map<string, StandInPort>();
  let world = 0;
  cdp.on('Runtime.executionContextCreated', ({ context }) => {
    if (context.name === WORLD) world = context.id;
  });
  cdp.on('Runtime.bindingCalled', ({ payload }) => {
    const sent = sentSchema.parse(JSON.parse(payload));
    if (sent.kind === 'say') return ports.get(sent.port)?.hear(sent.data);
    const opened = sent.ports.map((id) => openPort(id, cdp, world, told));
    sent.ports.forEach((id, index) => ports.set(id, opened[index] ?? fail()));
    const { mainFrame } = contents;
    toMain(sent.channel, { ports: opened, sender: contents, senderFrame: mainFrame });
  });
  await cdp.send('Page.enable');
  await cdp.send('Runtime.enable');
  await cdp.send('Runtime.addBinding', { name: 'standInSend', executionContextName: WORLD });
  await cdp.send('Page.addScriptToEvaluateOnNewDocument', { source: `(${receiveExposed.toString()})()` });
  const source = `{ const require = (${preloadRequire.toString()})();\n${readFileSync(preload, 'utf8')}\n}`;
  await cdp.send('Page.addScriptToEvaluateOnNewDocument', { source, worldName: WORLD });
}

const fail = (): never => {
  throw new Error('as many ports as ids');
};

type StandInPort = EventEmitter & MessagePortMain & { hear(data: string): void };

/** The main process's end of a port whose other end is in the page. Like Electron's it holds what it hears until `start`. */
function openPort(id: string, cdp: CDPSession, contextId: number, told: string[]): StandInPort {
  const waiting: string[] = [];
  let started = false;
  const port = Object.assign(new EventEmitter(), {
    hear: (data: string) => void (started ? port.emit('message', { data }) : waiting.push(data)),
    start: () => {
      started = true;
      for (const data of waiting.splice(0)) port.emit('message', { data });
    },
    close: () => undefined,
    postMessage: (message: unknown) => {
      if (typeof message !== 'string') throw new Error('the stand-in carries text only');
      told.push(message);
      const expression = `standInPorts.get(${JSON.stringify(id)}).postMessage(${JSON.stringify(message)})`;
      // The page may be gone when the answer comes; Electron, too, drops it then.
      cdp.send('Runtime.evaluate', { expression, contextId }).catch(() => undefined);
    },
  });
  return port as StandInPort;
}

/** Runs in the page's world: takes what `contextBridge` exposes. */
function receiveExposed(): void {
  window.addEventListener('stand-in-expose', (event) => {
    const { key, api } = JSON.parse(String((event as CustomEvent).detail));
    Object.defineProperty(window, key, { value: Object.freeze(api), enumerable: true });
  });
}

/** Runs in the preload's world: makes the `require` of a sandboxed preload, which knows `electron` and nothing else of ours. */
function preloadRequire(): (name: string) => unknown {
  const open = new Map<string, MessagePort>();
  const send = (message: object): void => Reflect.get(globalThis, 'standInSend')(JSON.stringify(message));
  Reflect.set(globalThis, 'standInPorts', open);
  const contextBridge = {
    exposeInMainWorld: (key, api) =>
      void window.dispatchEvent(new CustomEvent('stand-in-expose', { detail: JSON.stringify({ key, api }) })),
  } satisfies Partial<ContextBridge>;
  const ipcRenderer = {
    postMessage: (channel, _message, transfer = []) => {
      const ports = transfer.map((port) => {
        const id = crypto.randomUUID();
        open.set(id, port);
        port.onmessage = ({ data }) => send({ kind: 'say', port: id, data });
        return id;
      });
      send({ kind: 'post', channel, ports });
    },
  } satisfies Partial<IpcRenderer>;
  return (name) => {
    if (name !== 'electron') throw new Error(`a sandboxed preload cannot require ${name}`);
    return { contextBridge, ipcRenderer };
  };
}
