/** The host of the desktop shell: the preload script's promises, their refusals turned back into exceptions. */
import type { Host } from '../../shared-types/host.ts';
import type { Answer, Bridge } from '../../shared-types/ipc.ts';
import { RefusedError } from '../engine/errors.ts';

export function electronHost(bridge: Bridge): Host {
  return {
    info: () => unwrap(bridge.info()),
    openText: (request) => unwrap(bridge.openText(request)),
    saveFile: (file) => unwrap(bridge.saveFile(file)),
    makePdf: (document) => unwrap(bridge.makePdf(document)),
    printPdf: (file) => unwrap(bridge.printPdf(file)),
  };
}

async function unwrap<T>(pending: Promise<Answer<T>>): Promise<T> {
  const answer = await pending;
  if (!answer.ok) throw new RefusedError(answer.refusal);
  return answer.value;
}
