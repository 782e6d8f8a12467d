import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Whether Electron's own runtime is on this machine; the npm package alone brings only its types and a downloader. */
export type ElectronRuntime =
  | { readonly kind: 'present'; readonly executablePath: string }
  | { readonly kind: 'absent'; readonly because: string };

const home = join(import.meta.dirname, '../../node_modules/electron');

/** Looks for the runtime where Electron's installer puts it (`path.txt` names the executable inside `dist`). */
export function electronRuntime(): ElectronRuntime {
  const note = join(home, 'path.txt');
  const executablePath = existsSync(note) ? join(home, 'dist', readFileSync(note, 'utf8').trim()) : '';
  if (executablePath !== '' && existsSync(executablePath)) return { kind: 'present', executablePath };
  return {
    kind: 'absent',
    because:
      'Electron’s runtime is not installed here (npx install-electron fetches it where it can be fetched); the desktop host was run against its stand-in among the host tests',
  };
}
