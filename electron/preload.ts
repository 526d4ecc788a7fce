/** All that the page can ask of the shell. */
import { contextBridge, ipcRenderer } from 'electron';
import type { Bridge } from '../shared-types/ipc.ts';

const bridge: Bridge = {
  info: () => ipcRenderer.invoke('info'),
  openText: (request) => ipcRenderer.invoke('openText', request),
  saveFile: (file) => ipcRenderer.invoke('saveFile', file),
  makePdf: (document) => ipcRenderer.invoke('makePdf', document),
  printPdf: (file) => ipcRenderer.invoke('printPdf', file),
};

contextBridge.exposeInMainWorld('bagwright', bridge);
