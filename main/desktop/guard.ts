import { app, session } from 'electron';
import { isOurs } from './scheme.ts';

const NETWORK = /^(https?|wss?|ftp|file):/;

/** The session's rules: no permission is granted, and nothing is fetched but what the scheme serves. */
export function guardSession(): void {
  const { defaultSession } = session;
  defaultSession.setPermissionRequestHandler((_contents, _permission, callback) => callback(false));
  defaultSession.setPermissionCheckHandler(() => false);
  defaultSession.setDevicePermissionHandler(() => false);
  defaultSession.webRequest.onBeforeRequest({ urls: ['<all_urls>'] }, ({ url }, callback) =>
    callback({ cancel: NETWORK.test(url) }),
  );
}

/** No page, however it came about, goes elsewhere, opens a window or embeds another page. */
export function guardContents(): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-navigate', keepToPage);
    contents.on('will-redirect', keepToPage);
    contents.on('will-frame-navigate', keepToPage);
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}

function keepToPage(event: { readonly url: string; readonly preventDefault: () => void }): void {
  if (!isOurs(event.url)) event.preventDefault();
}
