import type { HostInfo } from '../../shared-types/host.ts';
import type { Handlers } from '../ipc.ts';

export function info(answer: HostInfo): Handlers['info'] {
  return () => Promise.resolve(answer);
}
