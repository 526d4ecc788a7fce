/** The one window. */
import { BrowserWindow, Menu, type MenuItemConstructorOptions, type WebPreferences } from 'electron';

export interface ShownWindow {
  window: BrowserWindow;
  focus: () => void;
}

/** Written out in full, so that no default can change under the program. */
export function lockedPreferences(): WebPreferences {
  return {
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    enableBlinkFeatures: '',
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
    devTools: false,
    plugins: false,
    safeDialogs: true,
  };
}

export async function showWindow(preload: string, address: string): Promise<ShownWindow> {
  Menu.setApplicationMenu(Menu.buildFromTemplate(menu()));
  const window = new BrowserWindow({
    width: 1280,
    height: 860,
    minWidth: 480,
    show: false,
    title: 'Bagwright',
    webPreferences: { ...lockedPreferences(), preload },
  });
  window.once('ready-to-show', () => window.show());
  await window.loadURL(address);
  return {
    window,
    focus() {
      if (window.isDestroyed()) return;
      if (window.isMinimized()) window.restore();
      window.focus();
    },
  };
}

function menu(): MenuItemConstructorOptions[] {
  return [
    ...(process.platform === 'darwin' ? [{ role: 'appMenu' } as const] : []),
    { role: 'fileMenu' },
    { role: 'editMenu' },
    {
      label: 'View',
      submenu: [
        { role: 'resetZoom' },
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { type: 'separator' },
        { role: 'togglefullscreen' },
      ],
    },
    { role: 'windowMenu' },
  ];
}
