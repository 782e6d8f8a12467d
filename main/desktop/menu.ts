import { Menu, type MenuItemConstructorOptions } from 'electron';

/** The menu bar; the roles bring the platform's usual keys with them. */
export function setMenu(platform: NodeJS.Platform): void {
  const mac: MenuItemConstructorOptions[] = platform === 'darwin' ? [{ role: 'appMenu' }] : [];
  const file: MenuItemConstructorOptions = {
    label: '&File',
    submenu: [platform === 'darwin' ? { role: 'close' } : { role: 'quit' }],
  };
  Menu.setApplicationMenu(Menu.buildFromTemplate([...mac, file, EDIT, VIEW, HELP]));
}

const EDIT: MenuItemConstructorOptions = {
  label: '&Edit',
  submenu: [
    { role: 'undo' },
    { role: 'redo' },
    { type: 'separator' },
    { role: 'cut' },
    { role: 'copy' },
    { role: 'paste' },
    { role: 'selectAll' },
  ],
};

const VIEW: MenuItemConstructorOptions = {
  label: '&View',
  submenu: [
    { role: 'reload' },
    { type: 'separator' },
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    { role: 'zoomOut' },
    { type: 'separator' },
    { role: 'togglefullscreen' },
  ],
};

const HELP: MenuItemConstructorOptions = { label: '&Help', role: 'help', submenu: [{ role: 'about' }] };
