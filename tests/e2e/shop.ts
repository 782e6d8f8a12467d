import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const start = fileURLToPath(new URL('../../main/command/start.ts', import.meta.url));

/** A running loopback host over one database, as a technician has it. */
export interface Shop {
  readonly file: string;
  /** The one-time address to open. */
  readonly address: string;
  /** Ends the host as a power cut does. */
  kill(): Promise<void>;
  stop(): Promise<void>;
}

/** A database that is not there yet, in a folder of its own. */
export function newDatabase(): string {
  return join(mkdtempSync(join(tmpdir(), 'ohmward-e2e-')), 'shop.sqlite');
}

/** Starts the loopback host as `npm start` does, without opening a window. */
export async function openShop(file: string): Promise<Shop> {
  const host = spawn(process.execPath, [start, '--db', file, '--no-open', '--host', 'loopback'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  endWithTheTests(host);
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    if (host.exitCode !== null || host.signalCode !== null) return;
    const ended = once(host, 'exit');
    host.kill(signal);
    await ended;
  };
  return { file, address: await addressOf(host), kill: () => end('SIGKILL'), stop: () => end('SIGTERM') };
}

/** A test that fails does not come to its own `stop`. */
function endWithTheTests(host: ChildProcess): void {
  const end = (): void => void host.kill('SIGKILL');
  process.once('exit', end);
  host.once('exit', () => process.off('exit', end));
}

function addressOf(host: ChildProcess): Promise<string> {
  return new Promise((done, fail) => {
    let said = '';
    const listen = (chunk: Buffer): void => {
      said += chunk.toString();
      const [address] = /http:\/\/127\.0\.0\.1:\d+\/enter\?token=\S+/.exec(said) ?? [];
      if (address !== undefined) done(address);
    };
    host.stdout?.on('data', listen);
    host.stderr?.on('data', listen);
    host.on('exit', (code) =>
      fail(new Error(`The host ended with ${String(code)} before it was open:\n${said}`)),
    );
  });
}
