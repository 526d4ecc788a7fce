/** For tests in the browser: what axe finds on the page under test, from outside of it. */
import type { BrowserCommand } from 'vitest/node';
import { axeIn } from './axeIn.ts';

/** Each violation as its rule and the elements it stands at; none is an empty list. Of the rules named alone, where some are. */
export const axe: BrowserCommand<[rules?: string[]]> = async ({ frame }, rules) =>
  axeIn(await frame(), rules === undefined ? {} : { rules });
