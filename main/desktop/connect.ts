import { ipcMain, type IpcMainEvent } from 'electron';
import { onError } from '@orpc/server';
import { RPCHandler } from '@orpc/server/message-port';
import { isExpected, type Mounted } from '../loopback/index.ts';
import { isOurs } from './scheme.ts';

/**
 * Takes the one message that the preload may send, which carries the far end of the page's MessagePort, and answers on that
 * port through the services. What comes before the records are open waits in the port. `report` gets what was a bug.
 */
export function acceptConnections(mounted: Promise<Mounted>, report: (error: unknown) => void): void {
  const handler = mounted.then(
    ({ router }) =>
      new RPCHandler(router, {
        interceptors: [onError((error) => (isExpected(error) ? undefined : report(error)))],
      }),
  );
  // Whoever opened the services hears of the failure; without this line it would also end the process as unhandled.
  handler.catch(() => undefined);
  ipcMain.on('ohmward:connect', (event) => {
    const [port] = event.ports;
    if (port === undefined || !isFromPage(event)) return;
    void handler.then((ready) => {
      ready.upgrade(port, { context: {} });
      port.start();
    });
  });
}

/** Only the page itself, at the top of its window: no frame in it, and nothing it may have been made to go to. */
function isFromPage({ sender, senderFrame }: IpcMainEvent): boolean {
  return senderFrame !== null && senderFrame === sender.mainFrame && isOurs(senderFrame.url);
}
