import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { app, screen, type BrowserWindow, type Rectangle } from 'electron';
import { z } from 'zod';

const stateSchema = z.strictObject({
  bounds: z.strictObject({ x: z.int(), y: z.int(), width: z.int().min(400), height: z.int().min(300) }),
  maximized: z.boolean(),
});

/** Where the window last stood. */
export type WindowState = z.output<typeof stateSchema>;

/** The state kept by `keepState`, if the place is still on a screen; else `null`, and the window stands where it likes. */
export function lastState(): WindowState | null {
  const state = stateSchema.safeParse(readState()).data;
  return state !== undefined && isOnScreen(state.bounds) ? state : null;
}

/** Keeps the window's place when it closes. */
export function keepState(window: BrowserWindow): void {
  window.on('close', () => {
    const state: WindowState = { bounds: window.getNormalBounds(), maximized: window.isMaximized() };
    try {
      writeFileSync(file(), JSON.stringify(state));
    } catch (error) {
      // A full disk must not keep the window from closing; its place is all that is lost.
      process.emitWarning(`The window's place was not kept: ${String(error)}`);
    }
  });
}

const file = (): string => join(app.getPath('userData'), 'window.json');

function readState(): unknown {
  try {
    return JSON.parse(readFileSync(file(), 'utf8'));
  } catch {
    // Absent on the first start; damaged is as good as absent.
    return null;
  }
}

function isOnScreen({ x, y, width, height }: Rectangle): boolean {
  const { workArea } = screen.getDisplayMatching({ x, y, width, height });
  const overlapX = Math.min(x + width, workArea.x + workArea.width) - Math.max(x, workArea.x);
  const overlapY = Math.min(y + height, workArea.y + workArea.height) - Math.max(y, workArea.y);
  return overlapX >= 100 && overlapY >= 100;
}
