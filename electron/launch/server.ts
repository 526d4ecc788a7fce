/** The loopback server of the browser window: one address, this machine only. */
import { createServer, STATUS_CODES, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import type { JournalDesk } from '../journal/desk.ts';
import type { Site } from '../site/buildMap.ts';
import { acceptQueue, keepConnections } from './connections.ts';
import { rawReply } from './headers.ts';
import { peerCheck, type PeerCheck } from './peer.ts';
import { printedShelf } from './printed.ts';
import { answerRequest, type RouteMeans } from './routes.ts';
import { freshToken } from './token.ts';

export const loopback = '127.0.0.1';
const waitMs = 10_000;

export interface ServerOptions {
  port: number;
  site: Site;
  version: string;
  dataFolder: string;
  helloKey: Buffer;
  journal: JournalDesk;
  makePdf: (document: DocumentToPrint) => Promise<Uint8Array>;
  /** Whose the connections are; asked of the system unless a test knows better. */
  peer?: PeerCheck;
}

export interface RunningServer {
  origin: string;
  port: number;
  address: AddressInfo;
  connections: () => number;
  /** From now on finished documents open in a window of this run's browser. */
  openWith: (openWindow: (address: string) => Promise<boolean>) => void;
  close: () => Promise<void>;
}

/** Rejects with the system's own error where the port is taken: the caller decides what that means. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const server = createServer({
    maxHeaderSize: 16 * 1024,
    headersTimeout: waitMs,
    requestTimeout: waitMs,
    keepAliveTimeout: 5_000,
    connectionsCheckingInterval: 1_000,
    // Checked by ourselves, so that this refusal too carries the headers.
    requireHostHeader: false,
  });
  server.maxHeadersCount = 100;
  const connections = keepConnections(server);
  refuseOddities(server);
  await listen(server, options.port);
  const address = server.address() as AddressInfo;
  const origin = `http://${loopback}:${address.port}`;
  const means: RouteMeans = {
    peer: peerCheck(),
    ...options,
    port: address.port,
    origin,
    token: freshToken(),
    connections,
    info: { kind: 'browser-window', version: options.version, dataFolder: options.dataFolder },
    printed: printedShelf({ documents: 16, bytes: 128 * 1024 * 1024 }),
    openWindow: null,
  };
  server.on('request', (request, response) => void answerRequest(request, response, means));
  return {
    origin,
    port: address.port,
    address,
    connections: () => connections.count(),
    openWith(openWindow) {
      means.openWindow = openWindow;
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        connections.closeAll();
      }),
  };
}

function listen(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: loopback, port, backlog: acceptQueue, exclusive: true }, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

/** Whatever is not a plain request: it is answered with the same headers, and the connection ends. */
function refuseOddities(server: Server): void {
  const end = (socket: Duplex, status: number): void => {
    if (!socket.writable) return void socket.destroy();
    socket.end(rawReply(status, STATUS_CODES[status] ?? 'Refused'), () => socket.destroy());
  };
  server.on('upgrade', (_request, socket) => end(socket, 400));
  server.on('connect', (_request, socket) => end(socket, 405));
  server.on('checkExpectation', (request) => end(request.socket, 417));
  server.on('clientError', (error: NodeJS.ErrnoException, socket) => {
    if (error.code === 'ECONNRESET' || !socket.writable) socket.destroy();
    else if (error.code === 'HPE_HEADER_OVERFLOW') end(socket, 431);
    else end(socket, error.code === 'ERR_HTTP_REQUEST_TIMEOUT' ? 408 : 400);
  });
}
