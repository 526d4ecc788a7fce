/**
 * Who is at the other end of a connection. Loopback is open to every user of the machine, and a page handed to another
 * user would carry the token with it. Linux lists its connections with their owners; elsewhere nobody can tell.
 */
import { readFile } from 'node:fs/promises';
import type { Socket } from 'node:net';
import { endianness } from 'node:os';

export type Peer = 'ours' | 'foreign' | 'unknown';
export type PeerCheck = (connection: Connection) => Promise<Peer>;
type Connection = Pick<Socket, 'remotePort' | 'localPort'>;

export interface PeerMeans {
  /** The system's table of connections; rejects where there is none. */
  table: () => Promise<string>;
  ownUid: number | undefined;
}

/** A program may speak IPv4 through a socket of the newer kind: its row is in the second table. */
const systemMeans: PeerMeans = {
  table: async () => {
    const newer = readFile('/proc/net/tcp6', 'ascii').catch(() => '');
    return `${await readFile('/proc/net/tcp', 'ascii')}${await newer}`;
  },
  ownUid: process.getuid?.(),
};

const [loopback, newerPrefix] =
  endianness() === 'LE' ? ['0100007F', '0000000000000000FFFF0000'] : ['7F000001', '00000000000000000000FFFF'];
/** While connections come and go, the system may skip a row in one reading. */
const readings = 3;

export function peerCheck({ table, ownUid }: PeerMeans = systemMeans): PeerCheck {
  const known = new WeakMap<Connection, Promise<Peer>>();
  const freshTable = shared(table);
  const look = async (connection: Connection): Promise<Peer> => {
    if (ownUid === undefined) return 'unknown';
    let listed = false;
    for (let reading = 1; reading <= readings; reading += 1) {
      let text: string;
      try {
        text = await freshTable();
      } catch {
        return 'unknown';
      }
      const { remotePort = 0, localPort = 0 } = connection;
      const uid = ownerOf(text, { from: remotePort, to: localPort });
      if (uid !== null) return uid === ownUid ? 'ours' : 'foreign';
      listed ||= ownerOf(text, { from: localPort, to: remotePort }) !== null;
    }
    // A system that hides even our own end from us tells nothing about the other.
    return listed ? 'foreign' : 'unknown';
  };
  return (connection) => {
    const found = known.get(connection) ?? look(connection);
    known.set(connection, found);
    return found;
  };
}

/** One reading at a time. Whoever asks during one gets the next, which began after their connection was there. */
function shared(read: () => Promise<string>): () => Promise<string> {
  let running: Promise<unknown> = Promise.resolve();
  let next: Promise<string> | null = null;
  return () => {
    next ??= running.then(async () => {
      const reading = read();
      running = reading.catch(() => undefined);
      next = null;
      return await reading;
    });
    return next;
  };
}

/**
 * The owner of one end of a connection, or null where it is not listed. Each end has a row of its own: number, local
 * and remote address, state, queues, timer, retries, uid. The newer table writes the same address with zeros before it.
 */
function ownerOf(table: string, { from, to }: { from: number; to: number }): number | null {
  for (const prefix of ['', newerPrefix]) {
    const at = table.indexOf(`: ${prefix}${loopback}:${hex(from)} ${prefix}${loopback}:${hex(to)} `);
    if (at < 0) continue;
    const [, , , , , , , uid] = table.slice(at, table.indexOf('\n', at)).split(/\s+/);
    return Number(uid);
  }
  return null;
}

function hex(port: number): string {
  return port.toString(16).toUpperCase().padStart(4, '0');
}
