/** Requests and answers of many records on their way to and from text, without holding the window for as long as that takes. */
import { textInSteps, valueInSteps } from '../engine/json/longText.ts';

/** So long the page works on before it looks whether the hand wants something. */
const turnMs = 16;
/** Of a text this long, reading it in one call is not felt. */
const shortText = 200_000;

/** The text of a request, for the body of a call. */
export async function bodyOf(request: unknown): Promise<Blob> {
  const parts: string[] = [];
  await inTurns(textInSteps(request), (part) => parts.push(part));
  return new Blob(parts, { type: 'application/json' });
}

/** @throws SyntaxError where the text is no JSON */
export async function readLong(text: string): Promise<unknown> {
  return text.length < shortText ? JSON.parse(text) : await inTurns(valueInSteps(text), () => undefined);
}

async function inTurns<Step, Value>(work: Generator<Step, Value>, take: (step: Step) => void): Promise<Value> {
  let until = performance.now() + turnMs;
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    take(step.value);
    if (performance.now() < until) continue;
    await pause();
    until = performance.now() + turnMs;
  }
}

/** By a message, which a window that is not seen gets no later than one that is seen; a timer would make it wait a second. */
function pause(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => {
      port1.close();
      resolve();
    });
    port1.start();
    port2.postMessage(null);
  });
}
