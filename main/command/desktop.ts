import { spawn } from 'node:child_process';

/** The machine and the person, as far as opening a window goes. */
export interface Desk {
  readonly platform: NodeJS.Platform;
  readonly env: NodeJS.ProcessEnv;
  readonly asRoot: boolean;
}

/** Why no window can be opened here, whatever is installed; `null` where one can. */
export function whyNoWindow({ platform, env, asRoot }: Desk): string | null {
  if (platform !== 'linux') return null;
  if (!hasScreen({ platform, env })) return 'there is no screen: DISPLAY and WAYLAND_DISPLAY are not set';
  // Chromium's sandbox does not run for root, and the desktop host does not run without it.
  if (asRoot) return 'it does not run for root, who has no sandbox';
  return null;
}

/** Whether a window, be it a browser's, can be seen at all. */
export const hasScreen = ({ platform, env }: Pick<Desk, 'platform' | 'env'>): boolean =>
  platform !== 'linux' || Boolean(env.DISPLAY) || Boolean(env.WAYLAND_DISPLAY);

/** Runs the desktop host until its window is closed. Gives its exit status. */
export function runDesktop(executable: string, top: string, file: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(executable, [top, `--db=${file}`], { stdio: 'inherit', windowsHide: false });
    const pass = (signal: NodeJS.Signals): boolean => child.kill(signal);
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, pass);
    child.on('error', reject);
    child.on('exit', (status) => resolve(status ?? 1));
  });
}
