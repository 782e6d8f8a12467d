import { contextBridge, ipcRenderer } from 'electron';

type Port = NonNullable<Parameters<typeof ipcRenderer.postMessage>[2]>[number];

/** The page's window, as far as the preload looks at it; the main room compiles without the DOM's types. */
declare const window: {
  readonly location: { readonly origin: string };
  addEventListener(
    type: 'message',
    listener: (event: { source: unknown; origin: string; data: unknown; ports: readonly Port[] }) => void,
  ): void;
};

/** All that the page can see of the desktop host; the rest goes through the port. */
const bridge = { host: 'desktop' } as const;

contextBridge.exposeInMainWorld('ohmward', bridge);

window.addEventListener('message', ({ source, origin, data, ports: [port] }) => {
  if (source !== window || origin !== window.location.origin || port === undefined) return;
  if (typeof data !== 'object' || data === null || !('type' in data) || data.type !== 'ohmward:port') return;
  ipcRenderer.postMessage('ohmward:connect', null, [port]);
});
