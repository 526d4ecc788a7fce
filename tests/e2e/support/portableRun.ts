/** A portable copy at work: opened in its window, a change kept by the page, a PDF made; then ended as Ctrl+C would. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { api, identity } from '../../../shared-types/ipc.ts';
import type { PortableCopy } from './portableCopy.ts';

export interface Worked {
  said: string;
  /** The first signs of the PDF. */
  pdf: string;
  /** The run's secret, as the page was given it. */
  token: string;
}

const limitMs = 150_000;

/** `command` starts the program in the copy's folder, in a group of processes of its own. */
export async function workIn(copy: PortableCopy, command: readonly [string, ...string[]]): Promise<Worked> {
  const [program, ...given] = command;
  const child = spawn(program, given, { cwd: copy.folder, env: copy.environment, detached: true });
  let said = '';
  for (const from of [child.stdout, child.stderr]) from.on('data', (part: Buffer) => (said += String(part)));
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  try {
    const stores = join(copy.data, 'browser', 'Default', 'IndexedDB');
    await until(
      child,
      () => existsSync(stores) && readdirSync(stores).length > 0,
      () => said,
    );
    const made = await makePdf();
    return { said, ...made };
  } finally {
    if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGTERM');
    await ended;
  }
}

async function until(child: ChildProcess, holds: () => boolean, said: () => string): Promise<void> {
  const began = Date.now();
  while (!holds()) {
    if (child.exitCode !== null) throw new Error(`the program ended by itself:\n${said()}`);
    if (Date.now() - began > limitMs) throw new Error(`the window did not open its database:\n${said()}`);
    await pause(100);
  }
}

async function makePdf(): Promise<{ pdf: string; token: string }> {
  const origin = identity.browserOrigin;
  const page = await (await fetch(`${origin}/`)).text();
  const token = /name="bagwright-token" content="([^"]+)"/.exec(page)?.[1] ?? '';
  const answer = await fetch(`${origin}${api.pdf}`, {
    method: 'POST',
    headers: { origin, [api.tokenHeader]: token, 'content-type': 'application/json' },
    body: JSON.stringify({ title: 'Bag', html: '<!doctype html><title>Bag</title><p>Bag', paper: 'A4' }),
  });
  return { pdf: (await answer.text()).slice(0, 5), token };
}
