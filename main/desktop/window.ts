import { BrowserWindow, nativeTheme } from 'electron';
import { PAGE_URL } from './scheme.ts';
import { keepState, lastState } from './window-state.ts';

/** Fits the app's smallest layout; the first start gets the second. */
const SMALLEST = { minWidth: 800, minHeight: 560 };
const FIRST = { width: 1280, height: 860 };

/** Opens the app's window with the page in it. `preload` is the path of the built preload. */
export function openWindow(preload: string): BrowserWindow {
  const state = lastState();
  const window = new BrowserWindow({
    ...(state?.bounds ?? FIRST),
    ...SMALLEST,
    show: false,
    title: 'Ohmward',
    // Seen only until the page has drawn; the page's own ground in both themes.
    backgroundColor: nativeTheme.shouldUseDarkColors ? '#1b1917' : '#f1eee8',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  keepState(window);
  window.once('ready-to-show', () => {
    if (state?.maximized === true) window.maximize();
    window.show();
  });
  void window.loadURL(PAGE_URL);
  return window;
}

/** Brings the app's window to the front, if there is one. */
export function focusWindow(): boolean {
  const [window] = BrowserWindow.getAllWindows();
  if (window === undefined) return false;
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
  return true;
}
