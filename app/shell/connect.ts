import { createORPCClient } from '@orpc/client';
import { RPCLink as FetchLink } from '@orpc/client/fetch';
import { RPCLink as PortLink } from '@orpc/client/message-port';
import type { ContractRouterClient } from '@orpc/contract';
import type { contract } from '../../main/contract/index.ts';

/** All that the app may ask of the main process, as functions. Expected failures reject with an ORPCError that has a `code` of the contract. */
export type Client = ContractRouterClient<typeof contract>;

/**
 * Connects the app to the main process: over a MessagePort where the desktop host's preload says it is there, else over
 * fetch to the loopback host that served the page. Call it once, when the app starts.
 */
export async function createClient(): Promise<Client> {
  return inDesktopHost()
    ? createORPCClient(new PortLink({ port: openPort() }))
    : createORPCClient(new FetchLink({ url: `${location.origin}/rpc` }));
}

function inDesktopHost(): boolean {
  const bridge: unknown = Reflect.get(globalThis, 'ohmward');
  return typeof bridge === 'object' && bridge !== null && Reflect.get(bridge, 'host') === 'desktop';
}

/** The preload passes the far end on to the main process. Requests made before it has arrived wait in the channel. */
function openPort(): MessagePort {
  const { port1: near, port2: far } = new MessageChannel();
  window.postMessage({ type: 'ohmward:port' }, '/', [far]);
  near.start();
  return near;
}
