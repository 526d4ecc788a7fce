/** All that the page can ask of the shell. */
import { contextBridge, ipcRenderer } from 'electron';
import type { Bridge, LeaseLost } from '../shared-types/ipc.ts';

const bridge: Bridge = {
  info: () => ipcRenderer.invoke('info'),
  openText: (request) => ipcRenderer.invoke('openText', request),
  saveFile: (file) => ipcRenderer.invoke('saveFile', file),
  makePdf: (document) => ipcRenderer.invoke('makePdf', document),
  printPdf: (file) => ipcRenderer.invoke('printPdf', file),
  journalOpen: () => ipcRenderer.invoke('journalOpen'),
  journalAppend: (request) => ipcRenderer.invoke('journalAppend', request),
  journalRead: (request) => ipcRenderer.invoke('journalRead', request),
  journalSetDatabase: (request) => ipcRenderer.invoke('journalSetDatabase', request),
  journalBeginAgain: (request) => ipcRenderer.invoke('journalBeginAgain', request),
  journalLease: (request) => ipcRenderer.invoke('journalLease', request),
  journalEndLease: (lease) => ipcRenderer.invoke('journalEndLease', lease),
  snapshotsList: () => ipcRenderer.invoke('snapshotsList'),
  snapshotsMake: (request) => ipcRenderer.invoke('snapshotsMake', request),
  snapshotsRead: (request) => ipcRenderer.invoke('snapshotsRead', request),
  snapshotsMeant: (request) => ipcRenderer.invoke('snapshotsMeant', request),
  snapshotsChooseSecond: () => ipcRenderer.invoke('snapshotsChooseSecond'),
  snapshotsNoSecond: () => ipcRenderer.invoke('snapshotsNoSecond'),
  onLeaseLost: (listener) =>
    void ipcRenderer.on('leaseLost', (_event, { lease, reason }: LeaseLost) => listener({ lease, reason })),
};

contextBridge.exposeInMainWorld('bagwright', bridge);
