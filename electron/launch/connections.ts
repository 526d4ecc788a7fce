/**
 * Keeps slow or half-open connections from crowding out the window. Nobody is turned away at the door; instead the
 * connection that has been silent longest gives up its place, so a flood only ever drowns itself.
 */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';

/** Larger than `acceptQueue`, so that a newcomer is read before it can be displaced. */
export const mostSilent = 1_536;
export const mostSpoken = 256;
/** How many the system may hand over in one go. With a shorter queue it drops newcomers, who try again a second later. */
export const acceptQueue = 1_024;

export interface Connections {
  /** A call with the token is at work on this connection: it is never displaced. */
  hold(socket: Socket): () => void;
  count(): number;
  closeAll(): void;
}

export function keepConnections(server: Server): Connections {
  // A Set remembers the order of insertion: the first is the one that has waited longest.
  const silent = new Set<Socket>();
  const spoken = new Set<Socket>();
  const held = new Set<Socket>();

  server.on('connection', (socket: Socket) => {
    silent.add(socket);
    socket.on('close', () => [silent, spoken, held].forEach((set) => set.delete(socket)));
    socket.on('error', () => socket.destroy());
    if (silent.size > mostSilent) displaceFirst(silent);
  });
  // Only a whole request makes a connection count as spoken: dripping bytes earns nothing.
  server.on('request', ({ socket }) => {
    silent.delete(socket);
    spoken.delete(socket);
    spoken.add(socket);
    if (spoken.size > mostSpoken) displaceFirst(spoken);
  });

  function displaceFirst(set: Set<Socket>): void {
    for (const socket of set) {
      if (held.has(socket)) continue;
      set.delete(socket);
      socket.destroy();
      return;
    }
  }

  return {
    hold(socket) {
      held.add(socket);
      return () => held.delete(socket);
    },
    count: () => silent.size + spoken.size,
    closeAll: () => [silent, spoken].forEach((set) => set.forEach((socket) => socket.destroy())),
  };
}
