/**
 * Stands in for the module `electron`, which cannot be imported without its binary. It keeps what the shell told it, and
 * plays the parts the shell relies on: messages are cloned on their way, a hidden window loads through its session.
 */
import { EventEmitter } from 'node:events';
import { vi } from 'vitest';

type Ask = (request: { url: string }, answer: (verdict: { cancel: boolean }) => void) => void;
type Serve = (request: Request) => Response | Promise<Response>;

export class FakeSession extends EventEmitter {
  permissionRequest: ((contents: unknown, permission: string, answer: (granted: boolean) => void) => void) | null =
    null;
  permissionCheck: ((...asked: unknown[]) => boolean) | null = null;
  devicePermission: ((...asked: unknown[]) => boolean) | null = null;
  beforeRequest: Ask | null = null;
  served = new Map<string, Serve>();
  setPermissionRequestHandler = (handler: FakeSession['permissionRequest']): void =>
    void (this.permissionRequest = handler);
  setPermissionCheckHandler = (handler: FakeSession['permissionCheck']): void => void (this.permissionCheck = handler);
  setDevicePermissionHandler = (handler: FakeSession['devicePermission']): void =>
    void (this.devicePermission = handler);
  setDisplayMediaRequestHandler = vi.fn();
  setSpellCheckerEnabled = vi.fn();
  webRequest = { onBeforeRequest: (handler: Ask): void => void (this.beforeRequest = handler) };
  protocol = { handle: (scheme: string, serve: Serve): void => void this.served.set(scheme, serve) };

  /** As Chromium would ask: first whether it may, then the scheme's own answer. */
  async load(url: string): Promise<Response | null> {
    let cancelled = true;
    this.beforeRequest?.({ url }, ({ cancel }) => (cancelled = cancel));
    if (cancelled) return null;
    return (await this.served.get(new URL(url).protocol.slice(0, -1))?.(new Request(url))) ?? null;
  }
}

const partitions = new Map<string, FakeSession>();
export const session = {
  defaultSession: new FakeSession(),
  fromPartition: vi.fn((name: string, _options?: unknown) => {
    const known = partitions.get(name) ?? new FakeSession();
    partitions.set(name, known);
    return known;
  }),
};

export const protocol = {
  registerSchemesAsPrivileged: vi.fn(),
  handle: (scheme: string, serve: Serve): void => void session.defaultSession.served.set(scheme, serve),
};

class FakeContents extends EventEmitter {
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  html = '';
  readonly printed: unknown[] = [];
  /** A message reaches the page, cloned on its way like every other. */
  send = (channel: string, message: unknown): void =>
    void ipcRenderer.emit(channel, { sender: this }, structuredClone(message));
  setWindowOpenHandler = (handler: FakeContents['openHandler']): void => void (this.openHandler = handler);
  /** Looks like Chromium's: the document's text, and the moment it was made. */
  printToPDF = async (options: unknown): Promise<Buffer> => {
    this.printed.push(options);
    madePdfs += 1;
    const now = `D:2026010203${String(1000 + madePdfs)}+00'00'`;
    return Buffer.from(`%PDF-1.4\n${this.html}\n<</CreationDate (${now})\n/ModDate (${now})>>\n%%EOF\n`);
  };
}
let madePdfs = 0;

export interface WindowOptions {
  show?: boolean;
  webPreferences: Record<string, unknown>;
}

export class BrowserWindow extends EventEmitter {
  static made: BrowserWindow[] = [];
  readonly webContents = new FakeContents();
  readonly options: WindowOptions;
  loaded: string[] = [];
  destroyed = false;
  minimized = false;
  show = vi.fn();
  focus = vi.fn();
  restore = vi.fn();

  constructor(options: WindowOptions) {
    super();
    this.options = options;
    BrowserWindow.made.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(url: string): Promise<void> {
    this.loaded.push(url);
    const partition = this.options.webPreferences['partition'];
    const from = typeof partition === 'string' ? session.fromPartition(partition) : session.defaultSession;
    this.webContents.html = (await (await from.load(url))?.text()) ?? '';
    if (this.webContents.html === '') throw new Error('ERR_BLOCKED_BY_CLIENT');
  }
  isDestroyed = (): boolean => this.destroyed;
  isMinimized = (): boolean => this.minimized;
  destroy = (): void => void (this.destroyed = true);
}

class FakeApp extends EventEmitter {
  readonly given = new Set<string>();
  readonly paths = new Map<string, string>();
  commandLine = { hasSwitch: (name: string): boolean => this.given.has(name) };
  firstInstance = true;
  isPackaged = false;
  setPath = (name: string, path: string): void => void this.paths.set(name, path);
  enableSandbox = vi.fn();
  quit = vi.fn();
  exit = vi.fn();
  getVersion = (): string => '1.2.3';
  requestSingleInstanceLock = (): boolean => this.firstInstance;
  whenReady = (): Promise<void> => Promise.resolve();
}
export const app = new FakeApp();

type Handler = (event: unknown, ...given: unknown[]) => Promise<unknown>;
export const channels = new Map<string, Handler>();
export const ipcMain = { handle: (channel: string, handler: Handler): void => void channels.set(channel, handler) };

/** The frame a message claims to come from; tests put strangers here. */
export const sender: { event: () => unknown } = { event: () => ({}) };
class FakeRenderer extends EventEmitter {
  async invoke(channel: string, ...given: unknown[]): Promise<unknown> {
    const handler = channels.get(channel);
    if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
    return structuredClone(await handler(sender.event(), ...structuredClone(given)));
  }
}
export const ipcRenderer = new FakeRenderer();

export const exposed = new Map<string, unknown>();
export const contextBridge = {
  exposeInMainWorld: (name: string, value: unknown): void => void exposed.set(name, value),
};

export const dialog = { showOpenDialog: vi.fn(), showSaveDialog: vi.fn() };
export const shell = { openPath: vi.fn(), openExternal: vi.fn() };
export const Menu = { setApplicationMenu: vi.fn(), buildFromTemplate: vi.fn((template: unknown) => template) };
